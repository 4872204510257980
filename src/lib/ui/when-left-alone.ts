/** As long as the server keeps a session that asks for nothing; a test holds the two together. */
export const LEFT_ALONE_MINUTES = 30;

const SIGNS = ['pointerdown', 'keydown', 'scroll'] as const;

/** Calls `leave` once nobody has touched the page for half an hour. @returns what takes it back */
export function whenLeftAlone(leave: () => void): () => void {
  const wait = LEFT_ALONE_MINUTES * 60_000;
  let timer = setTimeout(leave, wait);
  const again = () => {
    clearTimeout(timer);
    timer = setTimeout(leave, wait);
  };
  for (const sign of SIGNS) addEventListener(sign, again, { passive: true, capture: true });
  return () => {
    clearTimeout(timer);
    for (const sign of SIGNS) removeEventListener(sign, again, { capture: true });
  };
}
