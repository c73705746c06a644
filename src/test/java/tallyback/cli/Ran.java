package tallyback.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;

/**
 * A command that was run here as a user would run it.
 *
 * @param code the exit code
 * @param out what it printed as its result
 * @param err its messages
 */
record Ran(int code, String out, String err) {

  static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");

  /** Runs a command at noon. */
  static Ran command(Object... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Console console =
        new Console(
            new PrintWriter(out),
            new PrintWriter(err),
            false,
            InstantSource.fixed(NOON),
            ZoneOffset.UTC);
    int code = Main.run(console, words(args));
    return new Ran(code, out.toString(), err.toString());
  }

  static String[] words(Object... args) {
    return Arrays.stream(args).map(Object::toString).toArray(String[]::new);
  }

  /** Code and messages of a command that failed and printed no result. */
  static Ran failed(int code, String... errLines) {
    return new Ran(code, "", lines(errLines));
  }

  static String lines(String... lines) {
    return String.join(
        "", Arrays.stream(lines).map(line -> line + System.lineSeparator()).toList());
  }

  List<String> outLines() {
    return out.lines().toList();
  }
}
