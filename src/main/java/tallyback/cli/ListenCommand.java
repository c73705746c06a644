package tallyback.cli;

import java.io.IOException;
import java.time.Duration;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.JobDesk;
import tallyback.app.LiveJob;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.app.Noisiness;
import tallyback.app.SteadyClock;
import tallyback.audio.AudioRefused;
import tallyback.audio.Loudspeaker;
import tallyback.audio.Microphone;
import tallyback.audio.SoundOut;
import tallyback.dialogue.Reply;
import tallyback.model.Entry;
import tallyback.phrase.Question.OfListening;
import tallyback.voice.freetts.FreeTtsVoice;

/** {@code listen}: live, at the machine. */
@Command(
    name = "listen",
    mixinStandardHelpOptions = true,
    description = {
      "Listens at the machine: notes what is said, and says it back.",
      "Say the attention word before each entry; within six seconds after one is noted the next needs"
          + " none, nor does the answer to a question. One short tone: noted. Two: asked. A long one:"
          + " not noted. While it speaks it doesn't listen. Ctrl+C ends it; what is noted is on disk."
    })
final class ListenCommand implements Callable<Integer> {

  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Mixin private LiveOptions listened = new LiveOptions();
  @Mixin private SecondOption second = new SecondOption();
  @Mixin private NoiseOption noise = new NoiseOption();

  private boolean toldOfClock;
  private boolean toldOfNoise;

  @Option(
      names = "--held",
      description =
          "Listen only while held: Enter begins, Enter again ends, by hand or by a foot pedal that"
              + " types it. No attention word is needed then.")
  private boolean held;

  @Option(
      names = "--microphone",
      paramLabel = "NAME",
      description = "Part of the name of the microphone. Default: the first there is.")
  private @Nullable String microphone;

  @Option(names = "--microphones", description = "List the microphones there are, and end.")
  private boolean list;

  @Option(
      names = "--headset",
      description =
          "The microphone doesn't hear what is said aloud: loud speech stops it then, and it asks you"
              + " to say that again.")
  private boolean headset;

  @Option(names = "--silent", description = "Say nothing aloud; only print.")
  private boolean silent;

  ListenCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws AudioRefused, InterruptedException {
    if (list) {
      return listMicrophones();
    }
    LoadedPlan loaded = listened.load(data, job, console);
    String word = listened.attentionWord(loaded);
    OfListening way =
        held
            ? OfListening.WHILE_HELD
            : word == null ? OfListening.TO_EVERYTHING : OfListening.AFTER_THE_WORD;
    Pedal pedal = new Pedal();
    if (held) {
      pedal.listen();
    }
    SteadyClock clock = new SteadyClock(console.clock());
    JobDesk.Setting setting = new JobDesk.Setting("microphone", "mechanic", console.zone(), clock);
    try (Microphone source = Microphone.open(microphone, this::tell)) {
      console.err().println("microphone: " + source.name());
      SoundOut out = silent ? null : Loudspeaker.open();
      LiveJob live =
          new LiveJob(
              new LiveJob.Settings(
                  loaded,
                  () -> JobDesk.open(data.toWrite(), loaded, job.id(), clock.instant(), setting),
                  word,
                  way,
                  pedal,
                  headset,
                  out == null ? null : FreeTtsVoice::open,
                  out == null ? null : () -> out,
                  clock,
                  second.live(data.usualFolder(), this::say),
                  noise.diary(data.usualFolder())),
              event -> {
                tell(clock.setBack());
                tell(loaded, event);
              });
      LiveOptions.endWith(
          () -> {
            live.stop();
            source.waitNoLonger();
          });
      live.run(source);
      return ExitCode.CLEAR;
    } catch (IOException e) {
      if (e instanceof AudioRefused refused) {
        throw refused;
      }
      throw new MachineFailed("the microphone has failed (" + e.getMessage() + ")", e);
    }
  }

  private int listMicrophones() {
    List<String> names = Microphone.names();
    names.forEach(console.out()::println);
    if (names.isEmpty()) {
      console.err().println("no microphone found; plug one in and see that the system shows it");
    }
    return names.isEmpty() ? ExitCode.MACHINE_FAILED : ExitCode.CLEAR;
  }

  private void tell(Microphone.Change change) {
    console
        .err()
        .println(
            change == Microphone.Change.GONE
                ? "the microphone is gone: plug it in again; what was said before is heard"
                : "the microphone is back: listening again");
    console.err().flush();
  }

  private void say(String line) {
    console.err().println(line);
    console.err().flush();
  }

  /** Says once that the clock was set back. */
  private void tell(Duration back) {
    if (back.isZero() == toldOfClock) {
      toldOfClock = !back.isZero();
      if (toldOfClock) {
        console.err().println(SteadyClock.setBackText(back));
      }
    }
  }

  private void tell(LoadedPlan loaded, LiveJob.Event event) {
    if (event instanceof LiveJob.Event.Ready ready) {
      if (!ready.notice().isEmpty()) {
        console.err().println(ready.notice());
      }
      console.err().println(ready(loaded, ready.job()));
    } else if (event instanceof LiveJob.Event.Told told) {
      tell(loaded, told);
    } else if (event instanceof LiveJob.Event.ReminderDue due) {
      console
          .out()
          .println(TIME.format(due.at().atZone(console.zone())) + "  reminder  " + due.text());
    } else if (event instanceof LiveJob.Event.Noise heard) {
      tell(heard.now());
    } else if (event instanceof LiveJob.Event.NoiseTried noiseTried) {
      console.err().println(noiseTried.tried().said());
    } else if (event instanceof LiveJob.Event.SpokenInto) {
      console.out().println("          spoken into; say that again");
    } else if (event instanceof LiveJob.Event.LeftOpen left) {
      console
          .err()
          .println("asked and not answered, so unconfirmed: " + written(loaded, left.entry()));
    }
    console.out().flush();
    console.err().flush();
  }

  /** Says when it becomes too noisy, and when that is over. */
  private void tell(Noisiness now) {
    boolean tooNoisy = now == Noisiness.TOO_NOISY;
    if (tooNoisy != toldOfNoise) {
      toldOfNoise = tooNoisy;
      console
          .out()
          .println(
              tooNoisy
                  ? "          too noisy to trust: nothing is noted, what you call out is kept as sound"
                  : "          quiet enough again");
    }
  }

  private String ready(LoadedPlan loaded, String name) {
    String word = listened.attentionWord(loaded);
    String how =
        held
            ? "press Enter, speak, press Enter"
            : word == null ? "everything said is an entry" : "say " + word + " first";
    return "listening, job " + name + ": " + how;
  }

  private void tell(LoadedPlan loaded, LiveJob.Event.Told told) {
    Reply reply = told.reply();
    reply
        .leftOpen()
        .forEach(
            left ->
                console
                    .err()
                    .println("asked and not answered, so unconfirmed: " + written(loaded, left)));
    Entry entry = reply.entry();
    String what =
        reply.status() == Reply.Status.NOTED && entry != null
            ? written(loaded, entry)
            : reply.answer() != null ? reply.answer().shown() : reply.say();
    if (what.isEmpty()) {
      return;
    }
    console
        .out()
        .println(
            String.format(
                Locale.ROOT,
                "%s  %-8s  %s",
                TIME.format(told.at().atZone(console.zone())),
                reply.status().name().toLowerCase(Locale.ROOT),
                what));
    if (!reply.reminder().isEmpty()) {
      console.out().println(reply.reminder());
    }
  }

  private static String written(LoadedPlan loaded, Entry entry) {
    return loaded.grammar().readBack(Objects.requireNonNull(entry).statement()).written();
  }
}
