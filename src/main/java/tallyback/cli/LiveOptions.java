package tallyback.cli;

import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.Ear;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;

/** What is listened for live, and how such a command ends. */
final class LiveOptions {

  /** How long a closing program waits for what was said last. */
  private static final long LAST_WORDS_MS = 10_000;

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description =
          "The job's plan, always the same one for a job. Default: the one the job was begun with;"
              + " a new job has none, and what comes off is expected to go back.")
  private @Nullable Path plan;

  @Option(
      names = "--attention",
      paramLabel = "WORD|none",
      description =
          "The word that begins every entry, of three syllables or more. none: everything said is"
              + " taken for an entry. Default: ${DEFAULT-VALUE}.",
      defaultValue = "toolmaker")
  private String attention = "toolmaker";

  @Mixin private VoiceOption voice = new VoiceOption();

  /** Reads the plan; what listening needs besides is read meanwhile. */
  LoadedPlan load(DataOption data, JobOption job, Console console) {
    KnownVoices voices = voice.known(data, console);
    Ear.loadAhead();
    return LoadedPlan.forJob(plan, data.toWrite(console), job.id(), voices);
  }

  /** The plan that was named, or null. */
  @Nullable Path plan() {
    return plan;
  }

  /** The attention word, or null for none; one that can't be listened for is refused. */
  @Nullable String attentionWord(LoadedPlan loaded) {
    String word = attention.equals("none") ? null : attention.toLowerCase(Locale.ROOT);
    Ear.requireKnown(loaded, word);
    return word;
  }

  /**
   * Ctrl+C ends the listening, not the program at once: what was just said is still noted.
   *
   * @param stop ends what this thread is about to do
   */
  static void endWith(Runnable stop) {
    Thread listening = Thread.currentThread();
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  stop.run();
                  try {
                    listening.join(LAST_WORDS_MS);
                  } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                  }
                },
                "last-words"));
  }
}
