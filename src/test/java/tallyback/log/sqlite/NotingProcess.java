package tallyback.log.sqlite;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import tallyback.log.Draft;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.LogFailed;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.model.Entry;
import tallyback.model.Statement.Memo;

/**
 * What child processes of the tests do: one line for each thing done, and the message of what fails
 * as the last one.
 */
final class NotingProcess {

  private static final PrintStream OUT =
      new PrintStream(new FileOutputStream(FileDescriptor.out), true, StandardCharsets.UTF_8);

  private NotingProcess() {}

  /** Takes the act, the data file, and for noting the number of the first entry and how many. */
  public static void main(String[] args) throws IOException {
    Path file = Path.of(args[1]);
    try {
      switch (args[0]) {
        case "open" -> SqliteLogs.openForWriting(file).close();
        case "hold" -> hold(file);
        case "read" -> read(file);
        case "note" -> note(file, Integer.parseInt(args[2]), Integer.parseInt(args[3]));
        default -> throw new IllegalArgumentException(args[0]);
      }
      OUT.println("done");
    } catch (LogRefused e) {
      OUT.println("refused " + e.getMessage());
    } catch (LogFailed e) {
      OUT.println("failed " + e.getMessage());
    }
  }

  private static void hold(Path file) throws IOException {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      OUT.println("open");
      int end = System.in.read();
      OUT.println(log.jobs().size() + " jobs at " + end);
    }
  }

  private static void read(Path file) {
    try (LogReader log = SqliteLogs.openForReading(file)) {
      OUT.println(log.entries("pump").size() + " entries, problems " + log.verify().problems());
    }
  }

  private static void note(Path file, int first, int count) {
    try (JobLog log = SqliteLogs.openForWriting(file)) {
      log.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
      OUT.println("open");
      for (int i = first; i < first + count; i++) {
        Entry entry = log.append(draft(i), i % 7 == 0 ? Examples.clip(i, 9000) : null);
        OUT.println("noted " + entry.id() + " " + entry.seq());
      }
    }
  }

  static Draft draft(int number) {
    return Examples.draft("pump", "said-" + number, new Memo());
  }
}
