import { createInterface } from 'node:readline/promises';
import { Writable } from 'node:stream';

/** A line of a person that the screen does not show; where nobody sits there, the first line that comes. */
export async function askSecret(question: string): Promise<string> {
  const silent = new Writable({ write: (_piece, _encoding, done) => done() });
  const lines = createInterface({ input: process.stdin, output: silent, terminal: process.stdin.isTTY });
  if (process.stdin.isTTY) process.stderr.write(question);
  try {
    const ended = new Promise<string>((none) => lines.once('close', () => none('')));
    return await Promise.race([lines.question(''), ended]);
  } finally {
    lines.close();
    if (process.stdin.isTTY) process.stderr.write('\n');
  }
}
