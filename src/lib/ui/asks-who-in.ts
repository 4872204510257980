/** Does an error of a form ask whether something is a person? By its last words, which a test holds to `words/asks-who`. */
export const asksWhoIn = (error: string | undefined): boolean => error?.endsWith('say that it is none.') === true;
