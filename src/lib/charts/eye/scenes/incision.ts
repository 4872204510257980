import { at, MAIN, PORT, round, topEye } from '../anatomy/top';
import { hook, rod } from '../instruments/top';
import { dot, line, note, pen, strong, word } from '../pencil/marks';
import { topScene, type Scene } from '../scene';

export const incisionScenes: readonly Scene[] = [
  topScene(
    'incision-spacing',
    'Wounds two to three clock hours apart',
    'The eye from above, your seat at the lower edge. The main wound lies at the lower {right}, the side port at the lower {left}, two to three clock hours, 60 to 90 degrees, away. An instrument enters through each, and the two do not cross.',
    () => [
      topEye(),
      rod(at(1.15, 62), MAIN, 0.8),
      hook(at(1.25, 298), PORT, 1),
      line([at(5.1, MAIN), [0, 0], at(5.1, PORT)], { dash: 'dash', accent: true, sharp: true }),
      pen(round(2.05, MAIN + 2, PORT - 2), 2.6, { land: 0.03, lift: 0.03, accent: true }),
      dot([0, 0], 2.8),
      strong(word([0, 60], '60 to 90°')),
      note('br', 'main wound', at(5.75, 146)),
      note('bl', 'side port', at(5.6, 217)),
      word([0, 136], 'your seat'),
    ],
  ),
];
