import { type Constants, formula } from '../formula.ts';
import { amount, conductivity, group, heatTransfer, length, share, temperature } from '../measure.ts';
import { celsius, mm, ratio } from '../quantity.ts';

const cylinder = { source: 'churchill-chu-1975', unit: '1', status: 'read-secondary' } as const;
const air = { source: 'cengel-heat-transfer', at: 'table A-15', status: 'read-secondary' } as const;

const constants = {
  still: { ...cylinder, printed: '0.60', says: 'root of the Nusselt number in air that does not move' },
  rising: { ...cylinder, printed: '0.387', says: 'factor on the sixth root of the Rayleigh number' },
  diffusing: { ...cylinder, printed: '0.559', says: 'Prandtl number that the law compares with' },
  conductsAt20: { ...air, unit: 'W/(m.K)', printed: '0.02514', says: 'conductivity of air at 20 °C' },
  conductsAt60: { ...air, unit: 'W/(m.K)', printed: '0.02808', says: 'conductivity of air at 60 °C' },
  viscosityAt20: { ...air, unit: '1', printed: '15.16', says: 'kinematic viscosity of air at 20 °C, mm²/s' },
  viscosityAt60: { ...air, unit: '1', printed: '18.96', says: 'kinematic viscosity of air at 60 °C, mm²/s' },
  prandtlAt20: { ...air, unit: '1', printed: '0.7309', says: 'Prandtl number of air at 20 °C' },
  prandtlAt60: { ...air, unit: '1', printed: '0.7202', says: 'Prandtl number of air at 60 °C' },
} as const satisfies Constants;

const zeroCelsius = 273.15;
const gravity = 9.80665;
const stefanBoltzmann = 5.670374419e-8;

/** Nusselt number of a long level cylinder in a fluid that its own warmth moves. */
export function nusseltOf(
  rayleigh: number,
  prandtl: number,
  c: { readonly still: number; readonly rising: number; readonly diffusing: number },
): number {
  const damping = (1 + (c.diffusing / prandtl) ** (9 / 16)) ** (8 / 27);
  return (c.still + (c.rising * rayleigh ** (1 / 6)) / damping) ** 2;
}

/**
 * Heat that a round limb, dry and bare, gives to a still room per kelvin: by the air that its warmth moves, and by radiation.
 *
 * Models of a setting cast take one number for the first, though it grows with warmth. This tells how much.
 *
 * @throws InputError when no limb is so thick, or no skin or room so hot or cold
 * @example
 * roomLoss({ diameter: cm(10), surface: celsius(40), room: celsius(22), emissivity: ratio(0.95) }).value.convection // 4.32…
 */
export const roomLoss = /* @__PURE__ */ formula({
  id: 'setting.room-loss',
  revision: 1,
  basis: 'empirical',
  inputs: {
    diameter: length('diameter of the limb or the cast', { symbol: 'd', possible: [mm(10), mm(400)] }),
    surface: temperature('temperature of the surface', {
      symbol: 'T_s',
      possible: [celsius(0), celsius(100)],
    }),
    room: temperature('temperature of the room', { symbol: 'T_a', possible: [celsius(0), celsius(45)] }),
    emissivity: share('heat that it radiates, as a part of what a black body would', {
      symbol: '\\varepsilon',
      possible: [ratio(0), ratio(1)],
    }),
  },
  constants,
  steps: {
    film: temperature('mean of surface and room, at which air is taken', { symbol: 'T_f' }),
    conducts: conductivity('conductivity of the air', { symbol: 'k' }),
    viscosity: amount('kinematic viscosity of the air, mm²/s', { symbol: '\\nu' }),
    prandtl: amount('Prandtl number of the air', { symbol: '\\mathrm{Pr}' }),
    rayleigh: amount('Rayleigh number', { symbol: '\\mathrm{Ra}' }),
  },
  output: group({
    nusselt: amount('Nusselt number', { symbol: '\\mathrm{Nu}' }),
    convection: heatTransfer('heat that goes with the air, per kelvin', { symbol: 'h_c' }),
    radiation: heatTransfer('heat that is radiated to walls as warm as the room, per kelvin', {
      symbol: 'h_r',
    }),
  }),
  sources: ['churchill-chu-1975', 'cengel-heat-transfer'],
  compute: ({ diameter, surface, room, emissivity }, c, step) => {
    const film = step('film', (surface + room) / 2);
    const between = (at20: number, at60: number): number => at20 + ((at60 - at20) * (film - 20)) / 40;
    const conducts = step('conducts', between(c.conductsAt20, c.conductsAt60));
    const viscosity = step('viscosity', between(c.viscosityAt20, c.viscosityAt60)) / 1e6;
    const prandtl = step('prandtl', between(c.prandtlAt20, c.prandtlAt60));
    const d = diameter / 1000;
    const lift = (gravity * Math.abs(surface - room)) / (film + zeroCelsius);
    const rayleigh = step('rayleigh', (lift * d * d * d * prandtl) / (viscosity * viscosity));
    const nusselt = nusseltOf(rayleigh, prandtl, c);
    const [hot, cold] = [surface + zeroCelsius, room + zeroCelsius];
    return {
      nusselt,
      convection: (nusselt * conducts) / d,
      radiation: emissivity * stefanBoltzmann * (hot + cold) * (hot * hot + cold * cold),
    };
  },
});
