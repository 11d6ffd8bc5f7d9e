/** Days, times and numbers are written as the words are, whatever the browser's own language is: a sentence is in one language. */
export const locale = 'en-GB';
