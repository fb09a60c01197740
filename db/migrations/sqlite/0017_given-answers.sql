CREATE TABLE `given_answer` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`visit_id` text NOT NULL,
	`revision` integer NOT NULL,
	`given_on` text NOT NULL,
	`engine` integer NOT NULL,
	`basis` text NOT NULL,
	`verdicts` text NOT NULL,
	`outlooks` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `given_answer_visit` ON `given_answer` (`visit_id`,`revision`);--> statement-breakpoint
CREATE INDEX `given_answer_patient` ON `given_answer` (`patient_id`);
--> statement-breakpoint
-- What was said of a visit stands as it was given, and goes only when an erasure names its patient.
CREATE TRIGGER `given_answer_refuses_update` BEFORE UPDATE ON `given_answer` BEGIN SELECT RAISE(ABORT, 'given_answer is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `given_answer_refuses_delete` BEFORE DELETE ON `given_answer` WHEN NOT EXISTS (SELECT 1 FROM erasure WHERE patient_id = OLD.patient_id) BEGIN SELECT RAISE(ABORT, 'given_answer is append-only'); END;
