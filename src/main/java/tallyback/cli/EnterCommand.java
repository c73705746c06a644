package tallyback.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.JobDesk;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.app.TypedLines;
import tallyback.dialogue.Reply;

/** {@code enter}: typed entries, the same words as spoken ones. */
@Command(
    name = "enter",
    mixinStandardHelpOptions = true,
    description = {
      "Notes typed entries: the words given, else each line of standard input.",
      "What can be said can be typed: 'phrases' shows how. Put the time before what happened"
          + " earlier:",
      "  @2026-03-02T09:15:00+01:00 six pump bolts off"
    })
final class EnterCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description =
          "The job's plan, always the same one for a job. Default: the one the job was begun with;"
              + " a new job has none, and what comes off is expected to go back.")
  private @Nullable Path plan;

  @Parameters(
      arity = "0..*",
      paramLabel = "WORDS",
      description = "One entry, such as: six pump bolts off")
  private List<String> words = List.of();

  EnterCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    LoadedPlan loaded =
        LoadedPlan.forJob(plan, data.toWrite(console), job.id(), KnownVoices.none());
    JobDesk.Setting setting =
        new JobDesk.Setting("keyboard", "mechanic", console.zone(), console.clock());
    try (JobDesk desk =
        JobDesk.open(data.toWrite(), loaded, job.id(), console.clock().instant(), setting)) {
      desk.notice().ifPresent(console.err()::println);
      TypedLines lines = new TypedLines(desk);
      boolean allNoted =
          words.isEmpty() ? enterAll(lines) : tell(lines.enter(String.join(" ", words)));
      for (String left : lines.finish()) {
        console.err().println(left);
        allNoted = false;
      }
      return allNoted ? ExitCode.CLEAR : ExitCode.WRONG_USE;
    }
  }

  private boolean enterAll(TypedLines lines) {
    boolean allNoted = true;
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        if (!line.isBlank()) {
          allNoted &= tell(lines.enter(line));
        }
      }
    } catch (IOException e) {
      throw new MachineFailed("standard input can't be read (" + e.getMessage() + ")", e);
    }
    return allNoted;
  }

  private boolean tell(TypedLines.Told told) {
    told.leftOpen().forEach(console.err()::println);
    boolean noted = told.status() != Reply.Status.REJECTED;
    (noted ? console.out() : console.err()).println(told.line());
    console.out().flush();
    return noted && told.leftOpen().isEmpty();
  }
}
