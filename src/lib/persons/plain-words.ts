/**
 * Words that are no name where a name could stand: of everyday language and of the trade, in the languages in which people
 * write their files. From memory; a word that is missing here costs a question too many, never a refusal.
 */
const WRITTEN = `
a about above access across action adjusted after again against agreed aid all alone along also always am an and another
anterior any apart are area around art as asked aspiration at audit away axis back bag band based be because been before
behind beside best better between big bite black blade bleb block blood blue board both bottle brown burr but by call
called came camp cannula capsular capsule capsules card care careful case cases cataract cataracts centre chamber chart
chase check checked checkpoint chip chop chopped chopper chopping chord claim clear clock closed cold colleague come
complaint cornea corneal correct cortex could cough coughed course crack cut cyclic cystitome date day days deep dense
depth detached did dilated discussed disc divide do does done down drape drill drop dry dull early edge eight eleven eye eyes
every eighteen empty end energy enough epithelium even event events expected extra fast fat fellow few fibrosis field
figure figures figured file fine first five flap flat floor floppy flow fluid focus foot for forceps forty four fourth
friday from full fundus further gauge general gentle gently get glaucoma glove go goal good grant grasp great grip groove
had half hand handed hands handpiece hard has have head held help helped her here high him his hold hook hooks hope hospital
hour hours how hydration hydrodissection hydrodelineation i if in incision infusion injector inner inquiry instrument
intact intracameral intraocular iris irrigation is it its keep kept key knife know label large last late later layer lead
learned least leave led left lens lenses less let level lid light like limbal limbus line list lists lobe local long look
looked looking loop loose loss lost low lower machine macula made main make man many margin mark marked mask master mature
may me mean median medium membrane method microscope middle might minute minutes miss missed mm moment monday month months
more morning most move moved much must my myself nasal national near need needle needs never new next night nine no nobody
none normal not note noted nothing now nuclear nucleus nurse of off oil old on once one only open opened operated operating
operation operations optic or other others our out outer over own pack page pain part parts patient patients peel
percent peripheral peribulbar phaco piece pinch place plan plane point port position posterior practice pressure private
procedure prolapse pseudoexfoliation published pull pulled pump pupil pupils push put quadrant quadrants quick quiet quite
radial rate read record red refer reflex refill refilled registrar removal repeat rest restless retina review rhexis
right rigid ring rock rose rotate rotated run ran saturday save saw scar sclera scleral scope scrub second see seen segment
segments send senior series seven several shall shallow share sharp she short should show side sign simple since sister
site six sixth size slip slow small smaller smooth so soft some soon speculum speed spring stable staff stage star start
stay step steps still stitch stop stopped straight stretch stretched stroma stuck study sub such suction sudden summer
sunday supervisor suprachoroidal surface surgeon surgeons suture sutures swab table take taken talk team tear technique
ten tenon tension than that the theatre their them then there these they thick thin third thirty this those three through
thumb thursday tight time timed times tip to today toe together told too took top topical torn touch toward towards
traction trainee trauma tray trial tried trigger trypan try tube tuesday tunnel turn turned twelve twenty twice two
under unit until up upper us use used vacuum very viscoelastic vitreous volume waited wall was watch water we wednesday
week weeks well went were wet what when where which while white who whole why wide will with within without words work
working worn would wound wounds year years yes yet you young your zero zonule zonules zonular am pm year early learning
teaching training general anaesthesia anaesthetic anaesthetist consultant assistant doctor professor nurses sisters
january february march april june july august september october november december jan feb mar apr jun jul aug sep sept oct
nov dec mon tue wed thu fri sat sun autumn winter loading plus refract irrigating chain room recovery ward clinic
bengal descemet descemets zinn zinns bowman bowmans tenons elschnig soemmering schlemm schlemms fuchs marfan marfans
seidel purkinje sinskey barraquer simcoe utrata kelman kuglen colibri vannas westcott castroviejo sheets lim
lewicky malyugin akahoshi nagahara koch mckool argentinian hoffer holladay haigis barrett snellen goldmann schirmer
krukenberg vossius berger wieger mittendorf uhthoff
od os ou re le iol iols ovd ovds pco pcr pxf ifis bss ac pc acd io ia mics sics msics ecce icce yag oct cme rd dmek dsaek
hat haben ist war waren wird wurde der die das den dem des ein eine einer einem einen und oder nicht mit ohne von vom zum
zur bei beim nach vor auf aus im in am an als auch noch sehr zu so kapsel kapseln kapselruptur kapselriss kapselfalte linse
linsen pupille pupillen kern kerne rinde hornhaut iris vorderkammer glaskörper schnitt schnitte wunde wunden naht nähte
auge augen rechts links rechtes linkes vordere vorderer hintere hinterer kleine kleiner enge enger weicher weiche harter
harte trüb trübe dichte dichter weisse weiße unruhig ruhig haken ring stelle lage energie einblick operation fall fälle
schritt schritte zonula zonulen patient patientin patienten schwester pfleger arzt ärztin oberarzt assistent saal montag
dienstag mittwoch donnerstag freitag samstag sonntag januar februar märz mai juni juli oktober dezember herr frau
le la les un une des du de et ou avec sans est était a au aux pas très plus sur dans pour par chambre antérieure
postérieure capsule capsulorhexis pupille étroite noyau dur mou cristallin cornée incision crochets patiente calme
docteur infirmière monsieur madame lundi mardi mercredi jeudi vendredi blanche rouge droit gauche oeil œil
el los las una y o con sin es era muy más en por para cápsula anterior posterior pupila pequeña pequeño ganchos núcleo
duro blando cristalino paciente pacientes ojo derecho izquierdo catarata blanca intacta rota lunes martes miércoles
jueves viernes enfermera doctora señora señor
il lo gli i uno e con senza era molto capsula anteriore posteriore stretta integra rotta nucleo cristallino paziente
occhio destro sinistro cataratta bianca lunedì martedì mercoledì giovedì venerdì dottore infermiera
os as um uma com sem muito cápsula íntegra pequena pupila núcleo paciente olho direito esquerdo segunda terça quarta
quinta sexta enfermeira doutor doutora
mareez ko ki ka ke tha thi hai nahi aankh khansi shaant chhoti putli safed motiya haath ne se mein doosri pehli
said says asks does went goes gave gives given knows thinks wants likes phoned rang watched showed advised
`;

const WORDS: ReadonlySet<string> = new Set(WRITTEN.split(/\s+/).filter(Boolean));

/** Endings that make abstract and medical words, and hardly any name. */
const ENDING =
  /(tion|sion|ness|ity|ical|osis|itis|tomy|plasty|scopy|scope|ular|eal|ous|ive|ectasia|rhexis|phaco|capsular|graphy|metry|ruptur|kammer|chirurgie|ungen|ment)$/;

/** Is this word of a kind that stands for no person? Case, "'s" and full stops do not matter. */
export function isPlainWord(word: string): boolean {
  const bare = word
    .toLowerCase()
    .replace(/['’]s$/, '')
    .replace(/^[.'’-]+|[.'’-]+$/g, '');
  if (WORDS.has(bare)) return true;
  if (bare.length > 6 && ENDING.test(bare)) return true;
  const ends = /^(.{4,}?)(s|es|ed|ing|er|ly|d)$/.exec(bare);
  if (ends && (WORDS.has(ends[1] ?? '') || WORDS.has(`${ends[1] ?? ''}e`))) return true;
  return /[-/]/.test(bare) && bare.split(/[-/]/).every((part) => part.length < 2 || isPlainWord(part));
}
