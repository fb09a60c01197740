-- Nothing clinical is overwritten: revisions, ladders, events, answers, settings and the audit refuse change and removal.
CREATE TRIGGER `patient_revision_refuses_update` BEFORE UPDATE ON `patient_revision` BEGIN SELECT RAISE(ABORT, 'patient_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_revision_refuses_delete` BEFORE DELETE ON `patient_revision` BEGIN SELECT RAISE(ABORT, 'patient_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_revision_refuses_update` BEFORE UPDATE ON `visit_revision` BEGIN SELECT RAISE(ABORT, 'visit_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `visit_revision_refuses_delete` BEFORE DELETE ON `visit_revision` BEGIN SELECT RAISE(ABORT, 'visit_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `ladder_refuses_update` BEFORE UPDATE ON `ladder` BEGIN SELECT RAISE(ABORT, 'ladder is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `ladder_refuses_delete` BEFORE DELETE ON `ladder` BEGIN SELECT RAISE(ABORT, 'ladder is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `piece_revision_refuses_update` BEFORE UPDATE ON `piece_revision` BEGIN SELECT RAISE(ABORT, 'piece_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `piece_revision_refuses_delete` BEFORE DELETE ON `piece_revision` BEGIN SELECT RAISE(ABORT, 'piece_revision is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_event_refuses_update` BEFORE UPDATE ON `patient_event` BEGIN SELECT RAISE(ABORT, 'patient_event is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `patient_event_refuses_delete` BEFORE DELETE ON `patient_event` BEGIN SELECT RAISE(ABORT, 'patient_event is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `prompt_answer_refuses_update` BEFORE UPDATE ON `prompt_answer` BEGIN SELECT RAISE(ABORT, 'prompt_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `prompt_answer_refuses_delete` BEFORE DELETE ON `prompt_answer` BEGIN SELECT RAISE(ABORT, 'prompt_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `clinic_setting_refuses_update` BEFORE UPDATE ON `clinic_setting` BEGIN SELECT RAISE(ABORT, 'clinic_setting is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `clinic_setting_refuses_delete` BEFORE DELETE ON `clinic_setting` BEGIN SELECT RAISE(ABORT, 'clinic_setting is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_refuses_update` BEFORE UPDATE ON `audit` BEGIN SELECT RAISE(ABORT, 'audit is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `audit_refuses_delete` BEFORE DELETE ON `audit` BEGIN SELECT RAISE(ABORT, 'audit is append-only'); END;
