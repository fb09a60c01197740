ALTER TABLE `patient_revision` ADD `affected_parts` text;--> statement-breakpoint
ALTER TABLE `visit_revision` ADD `measures` text;