-- Every stretch of a patient's reference and name that a search can begin with: from each character on, sixteen long. Kept by the triggers below.
CREATE TABLE `search_part` (
	`clinic_id` text NOT NULL,
	`part` text NOT NULL,
	`patient_id` text NOT NULL,
	PRIMARY KEY(`clinic_id`, `part`, `patient_id`)
) WITHOUT ROWID;
--> statement-breakpoint
INSERT OR IGNORE INTO `search_part` SELECT clinic_id, substr(search_text, key + 1, 16), patient.id FROM `patient`, json_each('[0' || replace(hex(zeroblob(length(search_text) - 1)), '00', ',0') || ']') WHERE substr(search_text, key + 1, 1) NOT IN ('', ' ');
--> statement-breakpoint
CREATE TRIGGER `patient_is_searched` AFTER INSERT ON `patient` BEGIN
  INSERT OR IGNORE INTO `search_part` SELECT NEW.clinic_id, substr(NEW.search_text, key + 1, 16), NEW.id FROM json_each('[0' || replace(hex(zeroblob(length(NEW.search_text) - 1)), '00', ',0') || ']') WHERE substr(NEW.search_text, key + 1, 1) NOT IN ('', ' ');
END;
--> statement-breakpoint
CREATE TRIGGER `patient_is_searched_anew` AFTER UPDATE OF `search_text` ON `patient` WHEN NEW.search_text IS NOT OLD.search_text BEGIN
  DELETE FROM `search_part` WHERE clinic_id = OLD.clinic_id AND patient_id = OLD.id AND part IN (SELECT substr(OLD.search_text, key + 1, 16) FROM json_each('[0' || replace(hex(zeroblob(length(OLD.search_text) - 1)), '00', ',0') || ']'));
  INSERT OR IGNORE INTO `search_part` SELECT NEW.clinic_id, substr(NEW.search_text, key + 1, 16), NEW.id FROM json_each('[0' || replace(hex(zeroblob(length(NEW.search_text) - 1)), '00', ',0') || ']') WHERE substr(NEW.search_text, key + 1, 1) NOT IN ('', ' ');
END;
