-- Nothing clinical is overwritten: revisions, ladders, events, answers, settings and the audit refuse change and removal.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '% is append-only', TG_TABLE_NAME; END $$;
--> statement-breakpoint
CREATE TRIGGER "patient_revision_refuses_change" BEFORE UPDATE OR DELETE ON "patient_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_revision_refuses_truncate" BEFORE TRUNCATE ON "patient_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "visit_revision_refuses_change" BEFORE UPDATE OR DELETE ON "visit_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "visit_revision_refuses_truncate" BEFORE TRUNCATE ON "visit_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "ladder_refuses_change" BEFORE UPDATE OR DELETE ON "ladder" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "ladder_refuses_truncate" BEFORE TRUNCATE ON "ladder" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "piece_revision_refuses_change" BEFORE UPDATE OR DELETE ON "piece_revision" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "piece_revision_refuses_truncate" BEFORE TRUNCATE ON "piece_revision" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_event_refuses_change" BEFORE UPDATE OR DELETE ON "patient_event" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "patient_event_refuses_truncate" BEFORE TRUNCATE ON "patient_event" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "prompt_answer_refuses_change" BEFORE UPDATE OR DELETE ON "prompt_answer" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "prompt_answer_refuses_truncate" BEFORE TRUNCATE ON "prompt_answer" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "clinic_setting_refuses_change" BEFORE UPDATE OR DELETE ON "clinic_setting" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "clinic_setting_refuses_truncate" BEFORE TRUNCATE ON "clinic_setting" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "audit_refuses_change" BEFORE UPDATE OR DELETE ON "audit" FOR EACH ROW EXECUTE FUNCTION refuse_change();
--> statement-breakpoint
CREATE TRIGGER "audit_refuses_truncate" BEFORE TRUNCATE ON "audit" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
