/**
 * Checks of the log in a SQLite file: damage, kills, bad input, and the kept file of the first
 * schema.
 */
@org.jspecify.annotations.NullMarked
package tallyback.log.sqlite;
