/**
 * Submissions whose visit is there whole: head, newest revision, both ladders of the made-up visit, and its deed in the chain.
 * The same words on both engines.
 */
export const WHOLE = `select r.submission_id as id from visit v
  join visit_revision r on r.visit_id = v.id and r.number = v.revision
  where exists (select 1 from audit a where a.subject_id = v.id and a.link is not null)
  and (select count(*) from ladder l where l.visit_revision_id = r.id and length(cast(l.rungs as text)) > 2) = 2`;

/** How many visits are there, whole or not, and how many ladders without their revision. */
export const PARTS = `select (select count(*) from visit) as visits,
  (select count(*) from ladder where visit_revision_id not in (select id from visit_revision)) as homeless`;
