package tallyback.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tallyback.app.Demo;
import tallyback.app.Ear;
import tallyback.app.RecordedSound;
import tallyback.audio.AudioRefused;
import tallyback.report.TextTables;

/** {@code demo}: the main job on the bundled recordings. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description = {
      "Hears the recordings of an invented job and shows what is wrong with it.",
      "Takes about half a minute. Writes the record, one page for any browser, and the data file;"
          + " those of an earlier demo in the same folder are replaced. Ends with 0 when the"
          + " outcome is the expected one."
    })
final class DemoCommand implements Callable<Integer> {

  private static final int BAR_WIDTH = 30;

  private final Console console;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "The folder to write to. Default: ${DEFAULT-VALUE}.")
  private Path out = Path.of("tallyback-demo");

  DemoCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws AudioRefused {
    console.err().println("Hearing the recordings of the demo job ...");
    Ear.loadAhead();
    Demo.Result result = Demo.run(out, console.clock(), this::progress);
    if (console.terminal()) {
      console.err().print("\r" + " ".repeat(100) + "\r");
      console.err().flush();
    }
    TextTables.Paint paint = console.terminal() ? TextTables.Paint.COLOUR : TextTables.Paint.PLAIN;
    console
        .out()
        .print(
            TextTables.of(result.checked().record(console.clock().instant(), result.heard()), paint)
                .all());
    console.out().println();
    console
        .out()
        .println(
            String.format(
                Locale.ROOT,
                "Heard %d utterances, %d s of speech: %d noted, %d asked about, %d no entry.",
                result.heard().utterances(),
                result.heard().speech().toSeconds(),
                result.heard().noted(),
                result.heard().asked(),
                result.heard().rejected()));
    console.out().println("Record:    " + result.record().toAbsolutePath());
    console.out().println("Data file: " + result.data().toAbsolutePath());
    if (result.differences().isEmpty()) {
      console.out().println("The outcome is the expected one.");
      return ExitCode.CLEAR;
    }
    console.out().flush();
    console.err().println("The outcome is not the expected one:");
    result.differences().forEach(line -> console.err().println("  " + line));
    return ExitCode.MACHINE_FAILED;
  }

  private void progress(int done, int of, RecordedSound.@Nullable Told last) {
    if (!console.terminal()) {
      return;
    }
    int filled = done * BAR_WIDTH / of;
    String words =
        last == null || last.reply().readings().isEmpty()
            ? "(no entry)"
            : last.reply().readings().get(0);
    String shown = words.length() > 52 ? words.substring(0, 51) + "…" : words;
    console
        .err()
        .print(
            String.format(
                Locale.ROOT,
                "\r[%s%s] %3d/%d  %-52s",
                "#".repeat(filled),
                ".".repeat(BAR_WIDTH - filled),
                done,
                of,
                shown));
    console.err().flush();
  }
}
