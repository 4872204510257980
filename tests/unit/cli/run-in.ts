import { run } from '../../../src/cli/assess';

/** Seconds of the steps in the made-up files, by the names such files have for them. */
export const STEP_SECONDS: Readonly<Record<string, number>> = {
  incision: 20,
  rhexis: 40,
  hydrodissection: 30,
  phaco: 120,
  'I/A': 60,
  IOL: 35,
  hydration: 40,
};

/** `assess` as it would be typed in this folder: exit code and what it printed. */
export async function runIn(folder: string, args: readonly string[]) {
  let [out, err] = ['', ''];
  const code = await run(args, {
    userFolder: folder,
    projectFolder: folder,
    out: (text) => (out += text),
    err: (text) => (err += text),
  });
  return { code, out, err };
}
