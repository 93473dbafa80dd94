import type { cuttingPlan } from 'swathe';
import { digits, shown } from '../library/show.ts';
import { type Figure, figure, type In, label, type Out, rect, scale, wide, widthOf } from './svg.ts';

const title = 'A cutting plan to scale';

/** Every pattern as a roll laid out, with the pieces that are cut from it and what is left. */
export function cuttingPlanFigure(
  { perCut }: In<typeof cuttingPlan>,
  value: Out<typeof cuttingPlan>,
): Figure {
  if (value.kind === 'cannot')
    return figure(60, title, `There is no plan: ${value.reason}.`, [label(220, 34, value.reason)]);
  const longest = Math.max(...value.patterns.map((p) => p.length));
  const x = scale([0, longest], [24, wide - 24]);
  const lengths = [...new Set(value.patterns.flatMap((p) => p.pieces.map((piece) => piece.length)))].sort(
    (a, b) => b - a,
  );
  const rows: (string | number)[][] = [];
  const drawn = value.patterns.map((pattern, k) => {
    const top = 34 + k * 64;
    let at = 0;
    const pieces = pattern.pieces.flatMap((piece) =>
      Array.from({ length: piece.pieces }, () => {
        const from = at;
        at += piece.length + perCut;
        const says = shown(piece.length, 'mm', 4);
        const wideEnough = x(piece.length) - x(0) > widthOf(says, 13) + 6;
        rows.push([k + 1, piece.what.join('; '), from, from + piece.length]);
        return (
          rect(
            x(from),
            top,
            x(piece.length) - x(0),
            26,
            `band layers-${1 + (lengths.indexOf(piece.length) % 4)}`,
          ) +
          rect(x(from), top, x(piece.length) - x(0), 26, 'outline') +
          (wideEnough
            ? label((x(from) + x(from + piece.length)) / 2, top + 17, says, '', 'small on-band')
            : '')
        );
      }),
    );
    const rest = pattern.offCut + pattern.scrap;
    const end =
      pattern.offCut > 0
        ? `${shown(pattern.offCut, 'mm', 4)} off-cut`
        : pattern.scrap > 0
          ? `${shown(pattern.scrap, 'mm', 4)} lost`
          : 'nothing left';
    return (
      label(24, top - 8, `${digits(pattern.rolls)} × ${shown(pattern.length, 'mm')}`, 'start') +
      label(wide - 24, top - 8, end, 'end') +
      pieces.join('') +
      rect(x(pattern.length - rest), top, x(rest) - x(0), 26, 'left')
    );
  });
  const words = value.patterns
    .map(
      (p, k) =>
        `Pattern ${k + 1}, cut ${p.rolls === 1 ? 'once' : `${digits(p.rolls)} times`} from ${shown(p.length, 'mm')}: ${p.pieces.map((piece) => `${piece.pieces} of ${shown(piece.length, 'mm')} (${piece.what.join(', ')})`).join(', ')}.`,
    )
    .join(' ');
  return figure(16 + value.patterns.length * 64, title, words, drawn, {
    columns: ['pattern', 'piece', 'from [mm]', 'to [mm]'],
    rows,
  });
}
