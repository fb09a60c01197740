/** Below so many observations the small-sample correction counts. Clinic default; Burnham and Anderson 2002 ask for it below forty a parameter. */
const SMALL_SAMPLE = 15;

/**
 * What a model's deviance is charged for its parameters: 2k, with 2k(k+1)/(n−k−1) more below fifteen observations.
 *
 * Where n − k − 1 is not above zero the correction has no value and is left out: such a model is held back by what it is compared with.
 * Shape: number of fitted parameters k, number of observations n. Source: Akaike 1974; Hurvich and Tsai 1989, Biometrika 76:297.
 * Example: two parameters and ten observations: 4 + 12/7 = 5.714.
 */
export function akaikePenalty(parameters: number, observations: number): number {
  const spare = observations - parameters - 1;
  const correction = observations < SMALL_SAMPLE && spare > 0 ? (2 * parameters * (parameters + 1)) / spare : 0;
  return 2 * parameters + correction;
}
