ALTER TABLE `visit_revision` ADD `kept_body` text;--> statement-breakpoint
ALTER TABLE `visit_revision` ADD `occasion` text;