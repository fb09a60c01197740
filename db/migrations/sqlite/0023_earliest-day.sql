DROP INDEX `work_line_first`;--> statement-breakpoint
ALTER TABLE `work_line` ADD `soonest` text DEFAULT '' NOT NULL;--> statement-breakpoint
UPDATE `work_line` SET `soonest` = `due`;--> statement-breakpoint
CREATE INDEX `work_line_first` ON `work_line` (`clinic_id`,`first`,`soonest`,`id`);