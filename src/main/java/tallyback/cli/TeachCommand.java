package tallyback.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.Ear;
import tallyback.app.LiveTeaching;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.app.Teaching;
import tallyback.app.VoiceShelf;
import tallyback.app.WrongUse;
import tallyback.audio.AudioRefused;
import tallyback.audio.Loudspeaker;
import tallyback.audio.Microphone;
import tallyback.audio.SoundOut;
import tallyback.speech.adapt.Measured;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.voice.freetts.FreeTtsVoice;

/** {@code teach}: a voice, so that it is heard better. */
@Command(
    name = "teach",
    mixinStandardHelpOptions = true,
    description = {
      "Teaches a voice, so that it is heard better: says 20 short lines to repeat, two minutes in all.",
      "Somewhere quiet, with the microphone of the work. Broken off with Ctrl+C it goes on later. It"
          + " measures how well it hears lines that it did not learn from, with and without, and keeps"
          + " what it learned only if that is better. Sound and what was learned stay in the folder"
          + " voices of --home."
    })
final class TeachCommand implements Callable<Integer> {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private final Console console;
  @Mixin private DataOption home = new DataOption();

  @Option(names = "--voice", paramLabel = "NAME", description = "Whose voice, such as anna.")
  private @Nullable String voice;

  @Option(
      names = "--from",
      paramLabel = "FOLDER",
      description =
          "Learn from recordings instead: WAV files, and transcripts.tsv that says of each file,"
              + " speaker and words between tabs.")
  private @Nullable Path from;

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description = "With --from: the plan whose phrases are said. Default: the demo's.")
  private @Nullable Path plan;

  @Option(
      names = "--more",
      description = "A voice that was taught: have the lines said once more, and learn from all.")
  private boolean more;

  @Option(names = "--anew", description = "A voice that was taught: forget it and begin anew.")
  private boolean anew;

  @Option(
      names = "--again",
      description = "Learn again from what was recorded, and have nothing said.")
  private boolean again;

  @Option(names = "--list", description = "List the voices that were taught, and end.")
  private boolean list;

  @Option(
      names = "--forget",
      paramLabel = "NAME",
      description = "Forget a voice, its sound and what was learned of it, and end.")
  private @Nullable String forget;

  @Option(
      names = "--microphone",
      paramLabel = "NAME",
      description = "Part of the name of the microphone. Default: the first there is.")
  private @Nullable String microphone;

  @Option(names = "--silent", description = "Say nothing aloud; only print the lines.")
  private boolean silent;

  TeachCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws AudioRefused {
    VoiceShelf shelf = new VoiceShelf(home.usualFolder());
    if (list) {
      return list(shelf);
    }
    if (forget != null) {
      return forget(shelf, VoiceShelf.name(forget));
    }
    if (voice == null) {
      throw new WrongUse("--voice: expected whose voice is to be taught, such as --voice anna");
    }
    if (plan != null && from == null) {
      throw new WrongUse("--plan: only with --from; the lines to repeat are those of the demo");
    }
    String name = VoiceShelf.name(voice);
    Round round = round(shelf, name);
    return from == null ? live(shelf, name, round) : fromFolder(shelf, name, from, round);
  }

  /** Which lines are to be said. */
  private enum Round {
    /** None. */
    NONE,
    /** Those that were not said yet. */
    REST,
    /** All, besides what was said before. */
    ONCE_MORE,
    /** All, in the place of what was said before. */
    ANEW
  }

  private Round round(VoiceShelf shelf, String name) {
    if ((more ? 1 : 0) + (anew ? 1 : 0) + (again ? 1 : 0) > 1) {
      throw new WrongUse("--more, --anew, --again: expected one of them");
    }
    if (again && (from != null || shelf.recorded(name).isEmpty())) {
      throw new WrongUse(
          "--again: only without --from, and for a voice of which something was recorded; --list"
              + " shows them");
    }
    boolean complete = shelf.has(name) && Teaching.left(shelf, name).isEmpty();
    boolean recorded = !shelf.recorded(name).isEmpty();
    boolean asks = from == null ? complete && isTaught(shelf, name) : recorded;
    boolean fresh = anew;
    boolean once = more;
    if (asks && !more && !anew && !again) {
      fresh = askedAnew(name);
      once = !fresh;
    }
    if (again) {
      return Round.NONE;
    }
    return fresh ? Round.ANEW : once && complete ? Round.ONCE_MORE : Round.REST;
  }

  /** A file that is damaged is learned again from what was recorded. */
  private static boolean isTaught(VoiceShelf shelf, String name) {
    try {
      return shelf.taught(name).isPresent();
    } catch (WrongUse damaged) {
      return false;
    }
  }

  private boolean askedAnew(String name) {
    String question = "voice " + name + " was taught before: make it better, or begin anew?";
    if (!console.terminal()) {
      throw new WrongUse(question + " say --more or --anew");
    }
    for (int tries = 0; tries < 3; tries++) {
      console.err().println(question + " Type better or anew, and Enter.");
      console.err().flush();
      String line = Terminal.line().strip().toLowerCase(Locale.ROOT);
      if (line.equals("better") || line.equals("anew")) {
        return line.equals("anew");
      }
    }
    throw new WrongUse(question + " say --more or --anew");
  }

  private int live(VoiceShelf shelf, String name, Round round) throws AudioRefused {
    List<Teaching.Line> lines =
        switch (round) {
          case NONE -> List.of();
          case REST -> Teaching.left(shelf, name);
          case ONCE_MORE, ANEW -> Teaching.all();
        };
    Ear.loadAhead();
    if (lines.isEmpty()) {
      try (Teaching teaching = open(shelf, name, null, round)) {
        console.err().println("learning from what was recorded of " + name);
        return finish(teaching, name);
      }
    }
    try (Microphone source = Microphone.open(microphone, this::tell);
        Teaching teaching = open(shelf, name, null, round)) {
      console.err().println("microphone: " + source.name());
      if (lines.size() < Teaching.count()) {
        console
            .err()
            .println("going on: " + lines.size() + " of " + Teaching.count() + " lines are left");
      }
      console.err().println("Repeat each line as you would say it at work. Ctrl+C breaks off.");
      SoundOut out = silent ? null : Loudspeaker.open();
      LiveTeaching talk =
          new LiveTeaching(
              teaching,
              out == null ? null : FreeTtsVoice::open,
              out == null ? null : () -> out,
              this::tell);
      LiveOptions.endWith(
          () -> {
            talk.stop();
            source.waitNoLonger();
          });
      if (!talk.run(lines, source)) {
        console
            .err()
            .println(
                "broken off; what was said is kept: teach --voice "
                    + name
                    + " goes on with the rest");
        return ExitCode.CLEAR;
      }
      return finish(teaching, name);
    } catch (IOException e) {
      if (e instanceof AudioRefused refused) {
        throw refused;
      }
      throw new MachineFailed("the microphone has failed (" + e.getMessage() + ")", e);
    }
  }

  private Teaching open(VoiceShelf shelf, String name, @Nullable LoadedPlan loaded, Round round) {
    return Teaching.open(shelf, name, loaded, round == Round.ANEW, console.clock());
  }

  private int fromFolder(VoiceShelf shelf, String name, Path folder, Round round)
      throws AudioRefused {
    LoadedPlan loaded = plan == null ? null : LoadedPlan.of(plan);
    try (Teaching teaching = open(shelf, name, loaded, round)) {
      teaching.takeFrom(folder).forEach(console.err()::println);
      return finish(teaching, name);
    }
  }

  private int finish(Teaching teaching, String name) throws AudioRefused {
    console.err().println("measuring: each line is heard with what was learned of the others");
    console.err().flush();
    Teaching.Outcome outcome = teaching.finish();
    console.out().println(told(outcome.before(), outcome.after()));
    console
        .out()
        .println(
            outcome.kept()
                ? "kept: listen, serve and hear with --voice " + name
                : "not better, so it is not used; what was said is kept for another try with --more,"
                    + " nearer to the microphone or where it is quieter");
    return ExitCode.CLEAR;
  }

  private static String told(Measured before, Measured after) {
    return String.format(
        Locale.ROOT,
        "understood without asking: %d of %d before, %d after; asked about: %d before, %d after; wrong:"
            + " %d before, %d after (each line held back from what it was measured with)",
        before.noted(),
        before.lines(),
        after.noted(),
        before.lines() - before.noted() - before.wrong(),
        after.lines() - after.noted() - after.wrong(),
        before.wrong(),
        after.wrong());
  }

  private int list(VoiceShelf shelf) {
    List<String> names = shelf.names();
    for (String name : names) {
      console.out().println(name + "  " + told(shelf, name));
    }
    if (names.isEmpty()) {
      console.err().println("no voice was taught; teach --voice NAME teaches one");
    }
    return ExitCode.CLEAR;
  }

  private String told(VoiceShelf shelf, String name) {
    try {
      Optional<TaughtVoice> taught = shelf.taught(name);
      if (taught.isPresent()) {
        TaughtVoice voice = taught.get();
        return DAY.format(voice.taughtAt().atZone(console.zone()))
            + "  understood "
            + voice.before().noted()
            + " of "
            + voice.before().lines()
            + " lines before, "
            + voice.after().noted()
            + " after";
      }
    } catch (WrongUse damaged) {
      return "damaged; teach --voice " + name + " --again learns it again";
    }
    int left = Teaching.left(shelf, name).size();
    return left == 0
        ? "not used: it made nothing better"
        : "broken off, " + left + " of " + Teaching.count() + " lines left";
  }

  private int forget(VoiceShelf shelf, String name) {
    if (!shelf.forget(name)) {
      throw new WrongUse(
          "--forget " + name + ": there is no voice of that name; --list shows them all");
    }
    console.out().println("forgotten: voice " + name + ", its sound and what was learned of it");
    return ExitCode.CLEAR;
  }

  private void tell(Microphone.Change change) {
    console
        .err()
        .println(
            change == Microphone.Change.GONE
                ? "the microphone is gone: plug it in again"
                : "the microphone is back: listening again");
    console.err().flush();
  }

  private void tell(LiveTeaching.Event event) {
    if (event instanceof LiveTeaching.Event.Say say) {
      Teaching.Line line = say.line();
      String why =
          say.again() == null
              ? ""
              : say.again() == Teaching.Taken.TOO_NOISY
                  ? "  too noisy, once more: "
                  : "  once more: ";
      console
          .out()
          .println(
              String.format(
                  Locale.ROOT,
                  "%2d of %d  %s%s",
                  line.number(),
                  Teaching.count(),
                  why,
                  line.text()));
    } else if (event instanceof LiveTeaching.Event.Skipped skipped) {
      console
          .out()
          .println(
              "          left out"
                  + (skipped.why() == Teaching.Taken.TOO_NOISY
                      ? ": too noisy here to learn from"
                      : ": I didn't understand it as that"));
    } else if (event instanceof LiveTeaching.Event.NobodyThere) {
      console.err().println("nothing was said for 20 s: is the microphone on, and not muted?");
    }
    console.out().flush();
    console.err().flush();
  }
}
