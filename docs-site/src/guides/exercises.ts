import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import {
  type Answer,
  type AnyFormula,
  addedPlies,
  buildUp,
  cutLength,
  girthAt,
  helix,
  stripLength,
  takeOff,
  tell,
  wholeDown,
} from 'swathe';
import { digits, told } from '../library/show.ts';

/** A question with numbers of its own, and its answer as the library works it. */
export interface Exercise {
  readonly formula: AnyFormula;
  readonly question: string;
  /** Inputs in the form that `fromJson` reads. */
  readonly given: Readonly<Record<string, unknown>>;
  readonly working: readonly string[];
  readonly result: string;
  readonly answer: Answer;
}

type Draw = (least: number, most: number) => number;
const cm = (value: number) => ({ value, unit: 'cm' });
const inCm = (mm: number): string => told(tell(mm, 'cm'), 'cm', 4);

function cut(draw: Draw): Exercise {
  const path = draw(40, 90) / 2;
  const each = draw(1, 4) / 2;
  const given = { path: cm(path), times: 1, distal: cm(each), proximal: cm(each) };
  const answer = cutLength.fromJson(given);
  return {
    formula: cutLength,
    question: `A slab’s path measures ${told(path, 'cm')}. It is cut ${told(each, 'cm')} longer at each end. How long is it cut?`,
    given,
    working: [`${digits(path)} + ${digits(each)} + ${digits(each)} cm`],
    result: inCm(answer.value),
    answer,
  };
}

function girth(draw: Draw): Exercise {
  const [low, grows, length] = [draw(30, 44) / 2, draw(8, 24) / 2, draw(16, 30)];
  const at = draw(4, length - 4);
  const high = low + grows;
  const given = {
    stations: [
      { at: cm(0), girth: cm(low) },
      { at: cm(length), girth: cm(high) },
    ],
    at: cm(at),
  };
  const answer = girthAt.fromJson(given);
  return {
    formula: girthAt,
    question: `A leg measures ${told(low, 'cm')} round above the ankle and ${told(high, 'cm')} at a place ${told(length, 'cm')} higher. How thick is it ${told(at, 'cm')} above the first, if it widens evenly?`,
    given,
    working: [`${digits(low)} + (${digits(high)} − ${digits(low)}) × ${digits(at)} / ${digits(length)} cm`],
    result: inCm(answer.value),
    answer,
  };
}

function turns(draw: Draw): Exercise {
  const [round, advance, count] = [draw(32, 70) / 2, draw(5, 14) / 2, draw(4, 14)];
  const given = { girth: cm(round), advance: cm(advance), turns: count };
  const answer = stripLength.fromJson(given);
  const one = stripLength.fromJson({ ...given, turns: 1 }).value;
  return {
    formula: stripLength,
    question: `A bandage is wound ${count} times round a limb of ${told(round, 'cm')} girth and climbs ${told(advance, 'cm')} with each turn. How long is it?`,
    given,
    working: [
      `one turn: √(${digits(round)}² + ${digits(advance)}²) = ${inCm(one)}`,
      `${count} turns: ${count} × ${inCm(one)}`,
    ],
    result: inCm(answer.value),
    answer,
  };
}

function overlap(draw: Draw): Exercise {
  const [round, width, percent] = [draw(32, 70) / 2, draw(2, 6) * 2.5, draw(5, 13) * 5];
  const given = { girth: cm(round), width: cm(width), overlap: { value: percent, unit: '%' } };
  const answer = helix.fromJson(given);
  const { advance, least, most } = answer.value;
  return {
    formula: helix,
    question: `A bandage ${told(width, 'cm')} wide is wound round a limb of ${told(round, 'cm')} girth so that each turn overlaps the last by ${percent} % of the width. How far does a turn climb, and how many layers lie on each other?`,
    given,
    working: [
      ...answer.steps.map(
        ({ says, value, unit }) => `${says}: ${unit === 'mm' ? inCm(value) : digits(value, 4)}`,
      ),
      `the climb is the distance over the cosine, √(1 − sine²)`,
      `layers on average: 1 / (1 − ${digits(percent / 100)}) = ${digits(answer.value.mean, 4)}`,
    ],
    result: `${inCm(advance)}; ${least === most ? `${least} layers` : `${least} or ${most} layers`}`,
    answer,
  };
}

function layers(draw: Draw): Exercise {
  const [round, count, thickness] = [draw(32, 70) / 2, draw(3, 14), draw(4, 12) / 10];
  const given = {
    girth: cm(round),
    layers: count,
    thickness: { value: thickness, unit: 'mm' },
    compression: 0,
  };
  const answer = buildUp.fromJson(given);
  return {
    formula: buildUp,
    question: `${count} layers, each ${told(thickness, 'mm')} thick, lie on a limb of ${told(round, 'cm')} girth. What does the tape measure read over them?`,
    given,
    working: [
      `all layers: ${count} × ${told(thickness, 'mm')} = ${told(answer.value.thickness, 'mm', 4)}`,
      'the girth grows by 2π times that',
    ],
    result: inCm(answer.value.outerGirth),
    answer,
  };
}

function plies(draw: Draw): Exercise {
  const before = draw(6, 12);
  const after = before + draw(1, 6);
  const given = { before, after };
  const answer = addedPlies.fromJson(given);
  return {
    formula: addedPlies,
    question: `A flat slab gets ${after} plies instead of ${before}, well bonded. How many times as stiff, and how many times as heavy, does it become?`,
    given,
    working: [
      `as heavy: ${after} / ${before}`,
      'as stiff: the third power of that, since thickness counts three times over',
    ],
    result: `${digits(answer.value.stiffness, 4)} times as stiff, ${digits(answer.value.mass, 4)} times as heavy`,
    answer,
  };
}

function rolls(draw: Draw): Exercise {
  const [length, pieces, roll] = [draw(24, 60), draw(8, 15), draw(5, 9) * 50];
  const given = {
    needs: [
      {
        what: 'slab',
        material: 'plaster',
        width: cm(10),
        length: cm(length),
        pieces,
        joins: false,
        wider: false,
      },
    ],
    stock: [{ material: 'plaster', width: cm(10), length: cm(roll), onHand: 20 }],
  };
  const answer = takeOff.fromJson(given);
  const { rolls: opened, left } = answer.value;
  return {
    formula: takeOff,
    question: `A slab of ${pieces} plies, each ${told(length, 'cm')} long and never pieced together, is cut from rolls of ${told(roll, 'cm')}. How many rolls are opened, and how much is left on them?`,
    given,
    working: [
      `a roll gives ${wholeDown(roll / length)} whole pieces, since ${digits(roll)} / ${digits(length)} = ${digits(roll / length, 4)}`,
    ],
    result: `${opened} ${opened === 1 ? 'roll' : 'rolls'}; left: ${left.map((one) => inCm(one.left)).join(', ')}`,
    answer,
  };
}

export const leastSeed = 1;
export const mostSeed = 9999;

/** The same exercises for the same number, on every machine. */
export function exercises(seed: number): readonly Exercise[] {
  const random = xoroshiro128plus(seed);
  const draw: Draw = (least, most) => uniformInt(random, least, most);
  return [cut, girth, turns, overlap, layers, plies, rolls].map((make) => make(draw));
}
