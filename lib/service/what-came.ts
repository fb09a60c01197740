/** What a given verdict was against: the baseline of its phase, or the visit before. */
export type GivenAgainst = 'baseline' | 'last';

/** What later visits say of a verdict: by them the same is said, something else is, or nothing yet; `no-claim` of a verdict that claimed nothing. */
export type VerdictCame = 'confirmed' | 'contradicted' | 'open' | 'no-claim';

/** When the fit ended against the two days given: before the early one, between them, on the outgrow day or later, or not as far as was measured. */
export type OutlookCame = 'before-early' | 'between' | 'after' | 'not-yet';
