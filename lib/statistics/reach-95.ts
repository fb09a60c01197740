/** SDs to either side within which a normal value lies in 95 of 100 cases, as tables print it. Source: `normalReach(0.95)`, rounded. */
export const REACH_95 = 1.96;
