// The package ships its TypeScript sources beside its code, and they do not pass this project's strict flags.
export type Derivative = (x: number, y: number[]) => number[];

export class Solver {
  constructor(dimension: number);
  absoluteTolerance: number | number[];
  relativeTolerance: number | number[];
  initialStepSize: number;
  maxStepSize: number;
  maxSteps: number;
  denseOutput: boolean;
  denseComponents: number[];
  solve(
    f: Derivative,
    x0: number,
    y0: number[],
    xEnd: number,
    observe?: (
      step: number,
      xOld: number,
      x: number,
      y: number[],
      dense?: (component: number, x: number) => number,
    ) => boolean | undefined,
  ): { y: number[]; xEnd: number; outcome: number; nStep: number; nEval: number };
}

/** Values of a result's `outcome`. */
export const Outcome: { Converged: number; MaxStepsExceeded: number; EarlyReturn: number };
