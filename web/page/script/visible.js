// The page's door for text: characters that nobody sees, and that turn lines round or hide between letters, are shown as
// what they are, as the command shows them (`text/visible.rs` in the library). What people write stays as it is.

const HIDDEN = /[\p{Cc}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\p{Noncharacter_Code_Point}\ufff9-\ufffb]/gu;

/** The text with a sign in the place of each character that hides. */
export function visible(text) {
  return text.replace(HIDDEN, (c, at) => (isNeeded(c, text.slice(0, at), text.slice(at + c.length)) ? c : sign(c)));
}

function sign(c) {
  return `‹U+${c.codePointAt(0).toString(16).toUpperCase().padStart(4, "0")}›`;
}

/** Whether what stands round a character needs it: for a page line ends are blanks, and some belong to the spelling. */
function isNeeded(c, before, after) {
  if (/[\t\n\r]/.test(c)) return true;
  if (/[\p{Variation_Selector}]/u.test(c)) return /[^\s\p{Cc}\p{Default_Ignorable_Code_Point}]$/u.test(before);
  if (/[\u200c\u200d\u180e]/.test(c)) return JOINING.test(before) || (OF_EMOJI.test(before) && /^\p{Extended_Pictographic}/u.test(after));
  return /[\u{e0030}-\u{e0039}\u{e0061}-\u{e007a}\u{e007f}]/u.test(c) && FLAG.test(before);
}

const JOINING = /[\u0620-\u109f\u1780-\u17b3\u17b6-\u180a\u1820-\u18aa]$/;
const OF_EMOJI = /[\p{Extended_Pictographic}\p{Emoji_Modifier}\ufe0f]$/u;
const FLAG = /\u{1f3f4}[\u{e0030}-\u{e0039}\u{e0061}-\u{e007a}]{0,6}$/u;
