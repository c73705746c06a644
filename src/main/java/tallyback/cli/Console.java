package tallyback.cli;

import java.io.PrintWriter;
import java.time.InstantSource;
import java.time.ZoneId;

/**
 * Where a command prints and what it knows of its surroundings. Results go to {@code out}, progress
 * and messages to {@code err}.
 *
 * @param out results
 * @param err messages
 * @param terminal true when somebody looks at it: then progress is drawn and colour is allowed
 * @param clock the clock
 * @param zone the time zone of this machine
 */
record Console(
    PrintWriter out, PrintWriter err, boolean terminal, InstantSource clock, ZoneId zone) {}
