/**
 * What others read of a job: the record as one page, the tables of the console, the result for
 * other programs.
 *
 * <p>One way in, {@link tallyback.report.JobRecord}: the plan, the entries and what the reconciler
 * made of them. Four ways out: {@link tallyback.report.HtmlRecord}, {@link
 * tallyback.report.HtmlTimeline}, {@link tallyback.report.TextTables} and {@link
 * tallyback.report.CheckJson}. All are pure functions of it: no clock, no default locale, no
 * default zone, no network.
 *
 * <p>Texts: words that several outputs share are in {@code Wording}, the meaning of an entry in
 * {@code StatementText}, what stands only on the page in its templates under {@code src/main/jte}.
 * English only for now.
 */
@org.jspecify.annotations.NullMarked
package tallyback.report;
