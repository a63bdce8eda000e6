import type { Draft } from './draft.ts';
import { isInstrument } from './instruments.ts';
import { choiceNames, interpretAnswer } from './interpret-question.ts';
import { mend } from './mend.ts';
import { isKey } from './numbered-choices.ts';
import { factOf, splitFacts } from './one-key.ts';
import { isSign } from './parser.ts';
import { tokensText } from './statement-dress.ts';
import type { Span, Token } from './syntax.ts';
import { commentFix, isText, reportSentence } from './unread-sentence.ts';

/** A line with neither colon nor equals sign: `17th division coincides`, or text that belongs in a comment. */
export function oneKeyWords(draft: Draft, tokens: readonly Token[], span: Span): void {
  const text = tokensText(tokens);
  const [first, ...rest] = tokens;
  const names = choiceNames(draft);
  if (
    first !== undefined &&
    isKey(tokens) &&
    rest.some(token => /^[A-Ha-h]$/.test(token.text) || names.has(token.text.toUpperCase())) &&
    rest.length <= 4
  ) {
    interpretAnswer(
      draft,
      rest.filter(token => !isSign(token, '.')),
      span,
    );
    return;
  }
  if (isInstrument(text)) {
    mend(draft, span, 'the name of an instrument stands behind the word instrument', `instrument: ${text}`);
    return;
  }
  const coincides =
    /^(?:the )?(\d+) ?(?:st|nd|rd|th)? ?(?:vernier )?(?:scale )?(?:division|line|mark)(?: of (?:the )?vernier(?: scale)?)? (?:coincides|coinciding|matches|is in line)/i.exec(
      text,
    );
  if (coincides?.[1] !== undefined) {
    const term = draft.isScrew && !draft.hasVernier ? 'circular scale reading' : 'coinciding division';
    mend(draft, span, 'what was seen is recorded with its name and a colon', `${term}: ${coincides[1]}`);
    return;
  }
  const between = /zero of (?:the )?vernier.* (between .+ and .+)$/i.exec(text)?.[1];
  if (between !== undefined) {
    mend(
      draft,
      span,
      'what was seen is recorded with its name and a colon',
      `main scale reading: ${between}`,
    );
    return;
  }
  const fact = draft.isScrew ? factOf(tokens) : null;
  if (fact !== null) {
    mend(draft, span, 'this is the record of a scale, which has a name and a colon', fact);
    return;
  }
  if (splitFacts(draft, tokens, span)) return;
  reportSentence(
    draft,
    text,
    span,
    'this line is no record, no claim and no table; if it is text, make it a comment',
    [commentFix(draft, span, isText(draft, tokens))],
  );
}
