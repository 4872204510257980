const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Text made inert for element content and quoted attributes. `&` is always escaped, even in what looks like an entity:
 * `JaVa&#x73;cript:` left alone would be decoded by the browser after our check had passed it.
 */
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (character) => ENTITIES[character] ?? '');
