package tallyback.log.sqlite;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * {@link NotingProcess} in a Java virtual machine of its own; its output lines are read as they
 * come.
 */
final class ChildProcess {

  private static final long PATIENCE_SECONDS = 60;

  private final Process process;
  private final BufferedReader lines;
  private final List<String> read = new ArrayList<>();

  private ChildProcess(ProcessBuilder builder) {
    try {
      process = builder.redirectErrorStream(true).start();
    } catch (IOException e) {
      throw new AssertionError("the child process can't be started", e);
    }
    lines = process.inputReader(StandardCharsets.UTF_8);
  }

  static ChildProcess start(String act, Path file, String... more) {
    return new ChildProcess(new ProcessBuilder(command(act, file, more)));
  }

  /** With one property of the Java virtual machine. */
  static ChildProcess startWith(String property, String act, Path file) {
    List<String> command = command(act, file);
    command.add(1, property);
    return new ChildProcess(new ProcessBuilder(command));
  }

  /** As somebody whom the file's rights bind. */
  static ChildProcess startBoundByRights(String act, Path file) {
    List<String> command = new ArrayList<>(Bounds.byRights());
    command.addAll(command(act, file));
    return new ChildProcess(new ProcessBuilder(command));
  }

  /** With a limit on how long any file may grow, as a full disk would set one. */
  static ChildProcess startWithFileLimit(long limitKiB, String act, Path file, String... more) {
    List<String> command = new ArrayList<>(Bounds.fileLimit(limitKiB));
    command.addAll(command(act, file, more));
    command.addAll(command.indexOf("-cp"), Bounds.nativePartOutsideTheLimit());
    return new ChildProcess(new ProcessBuilder(command));
  }

  private static List<String> command(String act, Path file, String... more) {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Xshare:auto",
                "-XX:-UsePerfData",
                "-cp",
                classPath(),
                NotingProcess.class.getName(),
                act,
                file.toString()));
    command.addAll(List.of(more));
    return command;
  }

  private static String classPath() {
    return System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
  }

  long pid() {
    return process.pid();
  }

  /** The next line, or null at the end. */
  @Nullable String line() {
    try {
      String line = lines.readLine();
      while (line != null && line.startsWith("SLF4J")) {
        line =
            lines.readLine(); // says that nobody collects the libraries' messages, which holds in
        // tests
      }
      if (line != null) {
        read.add(line);
      }
      return line;
    } catch (IOException e) {
      return null;
    }
  }

  /** Reads until this line comes. */
  void await(String expected) {
    for (String line = line(); line != null; line = line()) {
      if (line.equals(expected)) {
        return;
      }
    }
    throw new AssertionError("the child process ended without \"" + expected + "\": " + read);
  }

  /** SIGKILL; what was printed before can still be read. */
  void kill() {
    // Not process.destroyForcibly(): that also throws away what was printed and not yet read.
    process.toHandle().destroyForcibly();
  }

  /** Reads to the end; the last line. */
  String finish() {
    try {
      while (line() != null) {
        // read holds them all
      }
      if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new AssertionError("the child process doesn't end: " + read);
      }
      return read.isEmpty() ? "" : read.get(read.size() - 1);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  int exitCode() {
    return process.exitValue();
  }

  List<String> lines() {
    return List.copyOf(read);
  }

  @Override
  public String toString() {
    return read.toString();
  }

  static void makeReadOnly(Path path) throws IOException {
    String rights = Files.isDirectory(path) ? "r-xr-xr-x" : "r--r--r--";
    Files.setPosixFilePermissions(path, PosixFilePermissions.fromString(rights));
  }
}
