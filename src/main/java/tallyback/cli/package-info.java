/**
 * The commands: reading the command line, wiring the parts together, printing, exit codes.
 *
 * <p>One way in: {@link tallyback.cli.Main}. Nothing else imports this package.
 */
@org.jspecify.annotations.NullMarked
package tallyback.cli;
