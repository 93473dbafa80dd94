import { fragmentOf } from '../client/fragment.ts';
import { formulaHref } from '../library/href.ts';
import { exercises } from './exercises.ts';

/** Questions and answers of one set, as they stand in the page. */
export function exerciseHtml(seed: number): { readonly questions: string; readonly answers: string } {
  const all = exercises(seed);
  const link = ({ formula, given }: (typeof all)[number]): string =>
    `${formulaHref(formula.id)}#${fragmentOf(formula.inputs, { given, units: {} })}`.replaceAll('&', '&amp;');
  const questions = all.map(({ question }) => `<li>${question}</li>`).join('');
  const answers = all
    .map(
      (exercise, n) =>
        `<li><p><strong>${exercise.result}</strong></p>` +
        `<ul>${exercise.working.map((line) => `<li>${line}</li>`).join('')}</ul>` +
        `<p class="small">By <code>${exercise.answer.by}</code>: ` +
        `<a href="${link(exercise)}">question ${n + 1} filled in on its page</a></p></li>`,
    )
    .join('');
  return { questions: `<ol>${questions}</ol>`, answers: `<ol>${answers}</ol>` };
}
