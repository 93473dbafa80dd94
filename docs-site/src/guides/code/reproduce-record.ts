import { type Answer, recheck, stripLength } from 'swathe';

// Keep the whole answer: it is plain JSON and holds the inputs, the steps, the constants and the revision.
const kept = JSON.stringify(
  stripLength.fromJson({
    girth: { value: 16.5, unit: 'cm' },
    advance: { value: 1.5, unit: '[in_i]' },
    turns: 6,
  }),
);

// Years later: does the number still hold? It is recomputed from its own record and compared at 12 digits.
const record = JSON.parse(kept) as Answer;
console.log(record.by, recheck(record, stripLength).kind);

// A record that somebody changed does not hold, and it is said where.
const result = recheck({ ...record, value: 1017 }, stripLength);
if (result.kind === 'differs')
  for (const { then, now } of result.differences)
    console.log(`was ${then}, is ${Number(now).toPrecision(12)}`);
