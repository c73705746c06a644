/**
 * The log in one SQLite file. {@link tallyback.log.sqlite.SqliteLogs} is the only way in.
 *
 * <p>From the outside in: {@code SqliteLogs} opens, {@code DataFile} tells our files from others
 * and makes new ones, {@code WriterMark} keeps a second writer out and remembers what was
 * acknowledged, {@code SqliteJobLog} reads and appends, {@code LogSchema} holds the tables and the
 * triggers that refuse changes, {@code EntryRow} is one row with its hash, {@code Verification}
 * checks all of it, and {@code SqliteFaults} turns the database's errors into a line with a remedy.
 *
 * <p>A shop with many bays may keep the same rows in another database: ids come from where the
 * entry was made, rows are never updated, and no key is made by the database.
 */
@org.jspecify.annotations.NullMarked
package tallyback.log.sqlite;
