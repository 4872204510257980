/** @param {unknown} why */
export const reasonOf = (why) => (why instanceof Error ? why.message : String(why));
