declare const held: unique symbol;

// One per dimension, but a modulus stands apart from a pressure, and a difference of temperatures from a temperature.
const units = [
  'mm',
  'mm2',
  'mm3',
  'mm4',
  's',
  'Cel',
  'N',
  'mm[Hg]',
  'N/mm2',
  'N.mm2',
  'g',
  'g/m2',
  'deg',
  'K',
  '/s',
  'W/m2',
  'W/m3',
  'W/(m.K)',
  'W/(m2.K)',
  'J/(m3.K)',
  'm2.K/W',
  'J/m2',
  'kg/m3',
  'J/(kg.K)',
  '1',
] as const;
/** The unit a value is held in, as a UCUM code. */
export type Unit = (typeof units)[number];

/** A number that carries its unit in its type: a bare number does not pass for one. */
export type Quantity<U extends Unit> = number & { readonly [held]: U };

export type Length = Quantity<'mm'>;
export type Area = Quantity<'mm2'>;
export type Volume = Quantity<'mm3'>;
export type SecondMoment = Quantity<'mm4'>;
export type Duration = Quantity<'s'>;
export type Temperature = Quantity<'Cel'>;
export type Force = Quantity<'N'>;
export type Pressure = Quantity<'mm[Hg]'>;
export type Modulus = Quantity<'N/mm2'>;
export type Rigidity = Quantity<'N.mm2'>;
export type Mass = Quantity<'g'>;
export type ArealMass = Quantity<'g/m2'>;
export type Angle = Quantity<'deg'>;
/** A difference of temperatures: it has no zero of its own. */
export type TemperatureDifference = Quantity<'K'>;
export type Rate = Quantity<'/s'>;
export type HeatFlux = Quantity<'W/m2'>;
export type HeatSource = Quantity<'W/m3'>;
export type Conductivity = Quantity<'W/(m.K)'>;
export type HeatTransfer = Quantity<'W/(m2.K)'>;
export type HeatCapacity = Quantity<'J/(m3.K)'>;
export type ThermalResistance = Quantity<'m2.K/W'>;
export type Ratio = Quantity<'1'>;

/** Least and most, both included. */
export type Span<N extends number = number> = readonly [N, N];

interface Code {
  readonly holds: Unit;
  /** Exact: held = (value - zero) * times / over. Two whole numbers, since 3 * 25.4 is 76.19999999999999. */
  readonly times?: number;
  readonly over?: number;
  readonly zero?: number;
}

const others = {
  cm: { holds: 'mm', times: 10 },
  m: { holds: 'mm', times: 1000 },
  '[in_i]': { holds: 'mm', times: 254, over: 10 },
  '[ft_i]': { holds: 'mm', times: 3048, over: 10 },
  '[yd_i]': { holds: 'mm', times: 9144, over: 10 },
  cm2: { holds: 'mm2', times: 100 },
  m2: { holds: 'mm2', times: 1_000_000 },
  cm3: { holds: 'mm3', times: 1000 },
  mL: { holds: 'mm3', times: 1000 },
  L: { holds: 'mm3', times: 1_000_000 },
  cm4: { holds: 'mm4', times: 10_000 },
  min: { holds: 's', times: 60 },
  h: { holds: 's', times: 3600 },
  d: { holds: 's', times: 86_400 },
  mo: { holds: 's', times: 2_629_800 },
  a: { holds: 's', times: 31_557_600 },
  '[degF]': { holds: 'Cel', times: 5, over: 9, zero: 32 },
  kgf: { holds: 'N', times: 980_665, over: 100_000 },
  kPa: { holds: 'mm[Hg]', times: 1_000_000_000_000, over: 133_322_387_415 },
  MPa: { holds: 'N/mm2' },
  GPa: { holds: 'N/mm2', times: 1000 },
  'N.m2': { holds: 'N.mm2', times: 1_000_000 },
  kg: { holds: 'g', times: 1000 },
  '%': { holds: '1', over: 100 },
} as const satisfies Readonly<Record<string, Code>>;

/** Every UCUM code that is read, and its exact relation to the unit held: first the units held themselves. */
export const codes = {
  .../* @__PURE__ */ Object.fromEntries(/* @__PURE__ */ units.map((holds) => [holds, { holds }])),
  ...others,
} as { readonly [U in Unit]: { readonly holds: U } } & typeof others;

/** A UCUM code in which a value may be told. */
export type UnitCode = keyof typeof codes;

/** Whether a text is a unit code that is read. */
export const isCode = (text: unknown): text is UnitCode =>
  typeof text === 'string' && Object.hasOwn(codes, text);

/** The codes that measure what `unit` measures, the held one first. */
export const codesFor = (unit: Unit): readonly UnitCode[] =>
  (Object.keys(codes) as UnitCode[]).filter((code) => codes[code].holds === unit);

/** A value told in `code`, in the unit held. */
export function hold(value: number, code: UnitCode): number {
  const { times = 1, over = 1, zero = 0 }: Code = codes[code];
  return ((value - zero) * times) / over;
}

/** A value held, told in `code`. */
export function tell(value: number, code: UnitCode): number {
  const { times = 1, over = 1, zero = 0 }: Code = codes[code];
  return (value * over) / times + zero;
}

const of =
  <C extends UnitCode>(code: C) =>
  (n: number): Quantity<(typeof codes)[C]['holds']> =>
    hold(n, code) as Quantity<(typeof codes)[C]['holds']>;

export const mm = /* @__PURE__ */ of('mm');
export const cm = /* @__PURE__ */ of('cm');
export const metres = /* @__PURE__ */ of('m');
export const inch = /* @__PURE__ */ of('[in_i]');
export const feet = /* @__PURE__ */ of('[ft_i]');
export const yards = /* @__PURE__ */ of('[yd_i]');
export const squareMetres = /* @__PURE__ */ of('m2');
export const seconds = /* @__PURE__ */ of('s');
export const minutes = /* @__PURE__ */ of('min');
export const hours = /* @__PURE__ */ of('h');
/** Mean months and years of 30.4375 and 365.25 days, as UCUM has them. */
export const months = /* @__PURE__ */ of('mo');
export const years = /* @__PURE__ */ of('a');
export const celsius = /* @__PURE__ */ of('Cel');
export const fahrenheit = /* @__PURE__ */ of('[degF]');
export const newtons = /* @__PURE__ */ of('N');
export const kgf = /* @__PURE__ */ of('kgf');
export const mmHg = /* @__PURE__ */ of('mm[Hg]');
export const kPa = /* @__PURE__ */ of('kPa');
export const megapascals = /* @__PURE__ */ of('MPa');
export const grams = /* @__PURE__ */ of('g');
export const gramsPerSquareMetre = /* @__PURE__ */ of('g/m2');
export const degrees = /* @__PURE__ */ of('deg');
export const kelvin = /* @__PURE__ */ of('K');
export const perSecond = /* @__PURE__ */ of('/s');
export const wattsPerSquareMetre = /* @__PURE__ */ of('W/m2');
export const wattsPerCubicMetre = /* @__PURE__ */ of('W/m3');
export const wattsPerMetreKelvin = /* @__PURE__ */ of('W/(m.K)');
export const wattsPerSquareMetreKelvin = /* @__PURE__ */ of('W/(m2.K)');
export const joulesPerCubicMetreKelvin = /* @__PURE__ */ of('J/(m3.K)');
export const squareMetreKelvinsPerWatt = /* @__PURE__ */ of('m2.K/W');
export const ratio = /* @__PURE__ */ of('1');
export const percent = /* @__PURE__ */ of('%');

/** A number at 12 significant digits: what a last bit could tell apart is then the same. */
export const digits12 = (value: number): number => Number(value.toPrecision(12));

/** What a last bit, or a few, may have put on an amount or taken off it. */
const slack = (amount: number): number => Math.min(0.5, Math.max(1e-9, 1e-12 * Math.abs(amount)));

/** How many whole things hold `amount`: a ceiling that a last-bit excess does not push one up. */
export const wholeUp = (amount: number): number => Math.ceil(amount - slack(amount));

/** How many whole things `amount` yields: a floor that a last-bit shortfall does not push one down. */
export const wholeDown = (amount: number): number => Math.floor(amount + slack(amount));
