CREATE TABLE `issued_document` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`patient_id` text NOT NULL,
	`visit_id` text,
	`kind` text NOT NULL,
	`language` text NOT NULL,
	`template_version` integer NOT NULL,
	`content` text NOT NULL,
	`author` text NOT NULL,
	`at` integer NOT NULL,
	`submission_id` text NOT NULL,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`patient_id`) REFERENCES `patient`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`visit_id`) REFERENCES `visit`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `issued_document_of` ON `issued_document` (`patient_id`,`at`);--> statement-breakpoint
CREATE UNIQUE INDEX `issued_document_submission` ON `issued_document` (`clinic_id`,`submission_id`);--> statement-breakpoint
CREATE TABLE `share_link` (
	`id` text PRIMARY KEY NOT NULL,
	`clinic_id` text NOT NULL,
	`document_id` text NOT NULL,
	`token_hash` text NOT NULL,
	`expires_at` integer NOT NULL,
	`by` text NOT NULL,
	`at` integer NOT NULL,
	`withdrawn_at` integer,
	`withdrawn_by` text,
	FOREIGN KEY (`clinic_id`) REFERENCES `clinic`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`document_id`) REFERENCES `issued_document`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `share_link_token` ON `share_link` (`token_hash`);--> statement-breakpoint
CREATE INDEX `share_link_document` ON `share_link` (`document_id`);--> statement-breakpoint
CREATE TABLE `share_opening` (
	`id` text PRIMARY KEY NOT NULL,
	`link_id` text NOT NULL,
	`cookie_hash` text NOT NULL,
	`at` integer NOT NULL,
	FOREIGN KEY (`link_id`) REFERENCES `share_link`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE UNIQUE INDEX `share_opening_cookie` ON `share_opening` (`cookie_hash`);--> statement-breakpoint
CREATE INDEX `share_opening_link` ON `share_opening` (`link_id`,`at`);
--> statement-breakpoint
CREATE TRIGGER `issued_document_refuses_update` BEFORE UPDATE ON `issued_document` BEGIN SELECT RAISE(ABORT, 'issued_document is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `issued_document_refuses_delete` BEFORE DELETE ON `issued_document` BEGIN SELECT RAISE(ABORT, 'issued_document is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `share_opening_refuses_update` BEFORE UPDATE ON `share_opening` BEGIN SELECT RAISE(ABORT, 'share_opening is append-only'); END;
--> statement-breakpoint
CREATE TRIGGER `share_opening_refuses_delete` BEFORE DELETE ON `share_opening` BEGIN SELECT RAISE(ABORT, 'share_opening is append-only'); END;
