package tallyback.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.RecordFile;
import tallyback.app.WrongUse;

/** Whether something is printed, or written as a page. */
final class PageOption {

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description =
          "Write a page instead; its name ends in .html. A file of that name is replaced.")
  private @Nullable Path out;

  /**
   * Asked before anything is worked out.
   *
   * @throws WrongUse if the name has another ending
   */
  void requireUsable() {
    if (out != null) {
      RecordFile.requireKnownEnding(out);
    }
  }

  /** Prints it, or writes the page and prints where it is. */
  void give(Console console, Consumer<PrintWriter> printed, Supplier<String> page) {
    Path file = out;
    if (file == null) {
      printed.accept(console.out());
    } else {
      RecordFile.writePage(file, page.get());
      console.out().println(file.toAbsolutePath());
    }
  }
}
