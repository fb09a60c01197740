import type { Ladder, LandmarkReading, Rung } from "../ladder/ladder";
import { limbInWords, placeInWords, type Side } from "../ladder/limb";
import { type CalendarDay, readDay } from "../units/calendar-day";
import type { TypedLength } from "../units/length";
import { readMass } from "../units/mass";
import { readLength } from "../units/read-length";
import type { SingleReading, Visit } from "./patient-record";
import {
	endLandmark,
	readPlace,
	type SheetRow,
	sheetRows,
	typedLandmarks,
} from "./sheet-rows";
import {
	cellKey,
	type GirthCell,
	type LimbSheet,
	markKey,
	type VisitForm,
} from "./visit-form";

/** A ladder as read from a sheet, with its interval as typed. */
export type ReadLadder = Ladder & { readonly intervalText: string | null };

/** Why a text cannot be saved, and which box it stands in: `height`, `0/right/end`, `0/right/knee`, `0/interval`. */
export type FormRefusal = { readonly where: string; readonly reason: string };

/** A visit as read from a form. */
export type ReadVisit = Omit<Visit, "ladders"> & {
	readonly ladders: readonly ReadLadder[];
};

/**
 * What a form says, or every box that cannot be saved and why. The same on both sides of the wire.
 *
 * Shape: a form, and the last day a visit may have (today); a visit with exact lengths, or refusals in the order of the page.
 * Refuses: a day that is not one or has not come, a time that no clock shows, any text that cannot be read as one figure, a girth
 * whose place is not known, two rows at one place, a visit with nothing measured.
 */
export function readVisitForm(
	form: VisitForm,
	latest: CalendarDay,
): { readonly visit: ReadVisit } | { readonly refusals: FormRefusal[] } {
	const refusals: FormRefusal[] = [];
	const refuse = (where: string, reason: string) =>
		refusals.push({ where, reason });
	const day = readDay(form.day);
	if (day.kind !== "read") refuse("day", day.reason);
	else if (day.value > latest) refuse("day", "This day has not come yet.");
	if (
		form.time.trim() !== "" &&
		!/^([01]?\d|2[0-3]):[0-5]\d$/.test(form.time.trim())
	)
		refuse("time", "Type the time as hours and minutes, 14:26.");
	const height = optional(
		form.height,
		(text) => readLength(text, form.heightUnit),
		(reason) => refuse("height", reason),
	);
	const weight = optional(
		form.weight,
		(text) => readMass(text, form.massUnit),
		(reason) => refuse("weight", reason),
	);
	const ladders = form.sheets.flatMap((sheet, index) =>
		sheet.sides.flatMap((side) => {
			const read = readSheetSide(sheet, side);
			for (const { where, reason } of read.refusals)
				refuse(`${index}/${where}`, reason);
			return read.ladder.rungs.length > 0 ? [read.ladder] : [];
		}),
	);
	const readings = readSingles(form, refuse);
	const nothing =
		ladders.length === 0 && !height && !weight && readings.length === 0;
	if (refusals.length === 0 && nothing)
		refuse("form", "Nothing is typed yet, so there is nothing to save.");
	if (refusals.length > 0 || day.kind !== "read")
		return { refusals: once(refusals) };
	const words = {
		posture: orNull(form.posture),
		measurer: orNull(form.measurer),
		note: orNull(form.note),
	};
	return {
		visit: {
			day: day.value,
			time: orNull(form.time),
			...words,
			height,
			weight,
			ladders,
			readings,
		},
	};
}

/**
 * One side of a sheet as a ladder, with the boxes that could not be read. Usable while typing: what cannot be read is left out.
 *
 * A row without a girth is left out, unless it carries a note.
 */
export function readSheetSide(
	sheet: LimbSheet,
	side: Side,
): { readonly ladder: ReadLadder; readonly refusals: readonly FormRefusal[] } {
	const refusals: FormRefusal[] = [];
	const interval =
		sheet.interval.trim() === ""
			? undefined
			: readLength(sheet.interval, sheet.unit, true);
	if (interval && interval.kind !== "read")
		refusals.push({ where: "interval", reason: interval.reason });
	for (const extra of sheet.extras) {
		if (!readPlace(extra.place, sheet))
			refusals.push({
				where: "place",
				reason: `The place “${extra.place}” cannot be read.`,
			});
	}
	const landmarks: LandmarkReading[] = [];
	for (const landmark of typedLandmarks(sheet)) {
		const distance = readMark(sheet, side, landmark, refusals);
		if (distance) landmarks.push({ landmark, distance });
	}
	const floorToFold =
		sheet.limb === "leg" ? readMark(sheet, side, "floor", refusals) : null;
	const rungs = sheetRows(sheet).flatMap((row) =>
		readRung(sheet, side, row, refusals),
	);
	const { limb, zero, direction, unit } = sheet;
	const intervalText = orNull(sheet.interval);
	return {
		ladder: {
			limb,
			side,
			zero,
			direction,
			unit,
			intervalText,
			rungs,
			landmarks,
			floorToFold,
		},
		refusals,
	};
}

function readMark(
	sheet: LimbSheet,
	side: Side,
	mark: LandmarkReading["landmark"] | "floor",
	refusals: FormRefusal[],
): TypedLength | null {
	const where = markKey(sheet.apart ? side : (sheet.sides[0] ?? side), mark);
	return optional(
		sheet.marks[markKey(side, mark)] ?? "",
		(text) => readLength(text, sheet.unit, true),
		(reason) => refusals.push({ where, reason }),
	);
}

function readRung(
	sheet: LimbSheet,
	side: Side,
	row: SheetRow,
	refusals: FormRefusal[],
): Rung[] {
	const key = cellKey(side, row.key);
	const cell = sheet.cells[key];
	if (!cell) return [];
	const girth = readGirth(cell.text, sheet, key, refusals);
	const second = readGirth(cell.again ?? "", sheet, `${key}/again`, refusals);
	if (!girth && second)
		refusals.push({
			where: key,
			reason: "The second taping is typed and the first is not.",
		});
	const distance = row.at[side];
	if (!distance) {
		const mark = placeInWords(endLandmark(sheet));
		refusals.push({
			where: markKey(side, endLandmark(sheet)),
			reason: `Type where the ${mark} of the ${limbInWords(sheet.limb, side)} is.`,
		});
		return [];
	}
	return girth || cell.note
		? [rungOf(distance, girth, second, cell, row.name)]
		: [];
}

function rungOf(
	distance: TypedLength,
	girth: TypedLength | null,
	again: TypedLength | null,
	cell: GirthCell,
	name: string,
): Rung {
	const note = cell.note ?? (name !== "" ? name : undefined);
	return {
		distance,
		girth,
		...(again ? { again } : {}),
		...(note ? { note } : {}),
		...(cell.kept && cell.kept.length > 0 ? { kept: cell.kept } : {}),
	};
}

function readGirth(
	text: string,
	sheet: LimbSheet,
	where: string,
	refusals: FormRefusal[],
): TypedLength | null {
	return optional(
		text,
		(typed) => readLength(typed, sheet.unit, true),
		(reason) => refusals.push({ where, reason }),
	);
}

function readSingles(
	form: VisitForm,
	refuse: (where: string, reason: string) => void,
): SingleReading[] {
	return form.readings.flatMap(
		({ name, text, unit }, index): SingleReading[] => {
			if (name.trim() === "" && text.trim() === "") return [];
			if (name.trim() === "")
				refuse(`reading/${index}`, "Name this reading, or empty it.");
			const length = optional(
				text,
				(typed) => readLength(typed, unit, true),
				(reason) => refuse(`reading/${index}`, reason),
			);
			return length ? [{ name: name.trim(), length }] : [];
		},
	);
}

type Read<T> =
	| { readonly kind: "read"; readonly value: T }
	| { readonly kind: "refused" | "ask"; readonly reason: string };

function optional<T>(
	text: string,
	reader: (text: string) => Read<T>,
	refuse: (reason: string) => void,
): T | null {
	if (text.trim() === "") return null;
	const reading = reader(text);
	if (reading.kind === "read") return reading.value;
	refuse(reading.reason);
	return null;
}

function orNull(text: string): string | null {
	return text.trim() === "" ? null : text.trim();
}

/** Each box once: a landmark typed for both sides is refused once. */
function once(refusals: readonly FormRefusal[]): FormRefusal[] {
	return [...new Map(refusals.map((one) => [one.where, one])).values()];
}
