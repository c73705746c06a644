package tallyback.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** A command in a Java virtual machine of its own, as a user starts it. */
final class OwnProcess {

  private static final long PATIENCE_SECONDS = 300;

  private final Process process;
  private final Path messages;
  private final BufferedReader results;
  private final List<String> read = new ArrayList<>();

  private OwnProcess(Process process, Path messages) {
    this.process = process;
    this.messages = messages;
    this.results = process.inputReader(StandardCharsets.UTF_8);
  }

  /**
   * Starts a command.
   *
   * @param folder where its messages are kept
   * @param before what stands before {@code java}, such as a limit
   * @param options options of the virtual machine
   * @param args the command
   */
  static OwnProcess start(Path folder, List<String> before, List<String> options, Object... args)
      throws IOException {
    List<String> command = new ArrayList<>(before);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:-UsePerfData"));
    command.addAll(options);
    command.add("-cp");
    command.add(
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")));
    command.add(Main.class.getName());
    command.addAll(List.of(Ran.words(args)));
    Path messages = Files.createTempFile(folder, "messages", ".txt");
    Process process = new ProcessBuilder(command).redirectError(messages.toFile()).start();
    return new OwnProcess(process, messages);
  }

  long pid() {
    return process.pid();
  }

  /** Its standard input. */
  PrintStream input() {
    return new PrintStream(process.getOutputStream(), true, StandardCharsets.UTF_8);
  }

  /** The next line it prints, or null at the end. */
  @Nullable String line() throws IOException {
    String line = results.readLine();
    if (line != null) {
      read.add(line);
    }
    return line;
  }

  /** Lets it end and gives what it came to. */
  Ran finish() throws IOException {
    process.getOutputStream().close();
    while (line() != null) {
      // read holds them all
    }
    try {
      if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new AssertionError("the command doesn't end: " + read);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
    return new Ran(
        process.exitValue(), Ran.lines(read.toArray(String[]::new)), Files.readString(messages));
  }
}
