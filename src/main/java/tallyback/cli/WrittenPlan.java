package tallyback.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tallyback.app.PlanFile;

/** Gives out a plan that was made: into a file, or to standard output. */
final class WrittenPlan {

  private WrittenPlan() {}

  static void tell(Console console, @Nullable Path file, String text) {
    if (file == null) {
      console.out().print(text);
      console.out().flush();
      return;
    }
    PlanFile.write(file, text)
        .ifPresent(copy -> console.err().println(copy.getFileName() + ": what stood there before"));
    console.out().println(file.toAbsolutePath());
  }
}
