-- Every stretch of a patient's reference and name that a search can begin with: from each character on, sixteen long. Kept by the triggers below.
CREATE TABLE "search_part" (
	"clinic_id" text NOT NULL,
	"part" text COLLATE "C" NOT NULL,
	"patient_id" text NOT NULL,
	PRIMARY KEY("clinic_id", "part", "patient_id")
);
--> statement-breakpoint
INSERT INTO "search_part" SELECT DISTINCT clinic_id, substr(search_text, n, 16), id FROM "patient", generate_series(1, length(search_text)) n WHERE substr(search_text, n, 1) <> ' ';
--> statement-breakpoint
CREATE FUNCTION keep_search_parts() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
  IF TG_OP = 'UPDATE' THEN
    IF NEW.search_text = OLD.search_text THEN RETURN NULL; END IF;
    DELETE FROM search_part WHERE clinic_id = OLD.clinic_id AND patient_id = OLD.id AND part = ANY(ARRAY(SELECT substr(OLD.search_text, n, 16) FROM generate_series(1, length(OLD.search_text)) n));
  END IF;
  INSERT INTO search_part SELECT DISTINCT NEW.clinic_id, substr(NEW.search_text, n, 16), NEW.id FROM generate_series(1, length(NEW.search_text)) n WHERE substr(NEW.search_text, n, 1) <> ' ';
  RETURN NULL;
END $$;
--> statement-breakpoint
CREATE TRIGGER "patient_is_searched" AFTER INSERT OR UPDATE OF "search_text" ON "patient" FOR EACH ROW EXECUTE FUNCTION keep_search_parts();
