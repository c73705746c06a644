/**
 * A job in the forms that other programs read: tables, lines of JSON, calendars, chapters and
 * captions for a film, and a text to read.
 *
 * <p>One way in, {@link tallyback.export.Export}, from a {@link tallyback.report.JobRecord}; out
 * come texts, which somebody else writes to files. Pure functions: no clock, no default locale or
 * zone, no files. What a user reads in more than one form is worded by the report; what stands only
 * here is in {@code ExportText}. English only for now.
 */
@org.jspecify.annotations.NullMarked
package tallyback.export;
