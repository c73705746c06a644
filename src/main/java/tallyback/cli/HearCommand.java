package tallyback.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.Ear;
import tallyback.app.FilmSounds;
import tallyback.app.HearJson;
import tallyback.app.JobDesk;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.RecordedSound;
import tallyback.app.WrongUse;
import tallyback.audio.AudioRefused;
import tallyback.dialogue.Reply;
import tallyback.model.Entry;

/** {@code hear}: recorded sound to entries. */
@Command(
    name = "hear",
    mixinStandardHelpOptions = true,
    description = {
      "Hears recordings and notes what they say.",
      "Without --data nothing is written: it shows what would be noted. To hear a recording again"
          + " notes nothing twice."
    })
final class HearCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();
  @Mixin private SecondOption second = new SecondOption();
  @Mixin private VoiceOption voice = new VoiceOption();
  @Mixin private FilmOption film = new FilmOption();

  @Parameters(
      arity = "1..*",
      paramLabel = "FILE",
      description =
          "WAV files, or films and other sound files where ffmpeg is installed, in the order they"
              + " were recorded.")
  private List<Path> files = List.of();

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description =
          "The job's plan, always the same one for a job. Default: the one the job was begun with;"
              + " a new job has none, and what comes off is expected to go back.")
  private @Nullable Path plan;

  @Option(
      names = "--at",
      paramLabel = "TIME",
      description =
          "When the first recording began; the others follow on it. Such as"
              + " 2026-03-02T09:15:00+01:00. Default: the time each file holds (bext, ICRD), else"
              + " its last change less its length. A film wants it: cameras' clocks are often"
              + " wrong.")
  private @Nullable String at;

  @Option(
      names = "--attention",
      paramLabel = "WORD|none",
      description =
          "The word that begins every entry, of three syllables or more, such as toolmaker. What"
              + " follows it and isn't understood is kept as sound; what doesn't begin with it is"
              + " passed over, nothing of it kept. Default: none.")
  private String attention = "none";

  @Option(names = "--json", description = "Print one JSON object per utterance.")
  private boolean json;

  HearCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws AudioRefused {
    try (FilmSounds films = film.sounds(data.usualFolder(), console)) {
      requireTimesOf(films);
      List<RecordedSound.Recording> recordings = films.ready(files);
      FilmOption.progressOver(console);
      films.notices().forEach(console.err()::println);
      return hear(recordings);
    }
  }

  /** A film's own time is told and never taken. */
  private void requireTimesOf(FilmSounds films) throws AudioRefused {
    List<String> untimed = new ArrayList<>();
    for (Path file : files) {
      if (at == null && FilmSounds.isFilm(file)) {
        untimed.add(
            file
                + ": expected to be told when it began, found no --at; give --at"
                + ExportCommand.suggestion(films.about(file).begun(), console.zone()));
      }
    }
    if (!untimed.isEmpty()) {
      throw new WrongUse(untimed);
    }
  }

  private int hear(List<RecordedSound.Recording> recordings) throws AudioRefused {
    Instant begin = begin();
    KnownVoices voices = voice.known(data, console);
    Ear.loadAhead();
    LoadedPlan loaded =
        LoadedPlan.forJob(plan, data.named() ? data.toWrite(console) : null, job.id(), voices);
    String word = attention.equals("none") ? null : attention.toLowerCase(Locale.ROOT);
    Ear.requireKnown(loaded, word);
    JobDesk.Setting setting =
        new JobDesk.Setting("recording", "mechanic", console.zone(), console.clock());
    try (JobDesk desk =
            data.named()
                ? JobDesk.open(data.toWrite(), loaded, job.id(), begin, setting)
                : JobDesk.withoutData(loaded, begin, setting);
        Ear ear =
            Ear.open(
                loaded, word, second.ofRecordings(data.usualFolder(), console.err()::println))) {
      desk.notice().ifPresent(console.err()::println);
      return hear(desk, recordings, new RecordedSound(desk, ear), begin);
    }
  }

  private int hear(
      JobDesk desk, List<RecordedSound.Recording> recordings, RecordedSound sound, Instant begin)
      throws AudioRefused {
    boolean whole = true;
    Instant next = begin;
    for (RecordedSound.Recording recording : recordings) {
      Path file = recording.file();
      next = at == null ? RecordedSound.begin(file, next, console.zone()) : next;
      boolean[] anySpeech = {false};
      RecordedSound.Listened listened =
          sound.hear(
              recording,
              next,
              told -> {
                anySpeech[0] = true;
                tell(desk, told);
              });
      if (!anySpeech[0]) {
        console.err().println(file + ": no speech in it; nothing was noted of it");
      }
      listened.notices().forEach(console.err()::println);
      whole &= listened.whole();
      next = next.plusMillis(listened.lengthMs());
    }
    sound.finish().forEach(left -> tellLeftOpen(desk, left));
    return whole ? ExitCode.CLEAR : ExitCode.WRONG_USE;
  }

  private Instant begin() {
    String time = at;
    if (time == null) {
      return RecordedSound.begin(files.get(0), Instant.MIN, console.zone());
    }
    try {
      return OffsetDateTime.parse(time).toInstant();
    } catch (DateTimeParseException e) {
      throw new WrongUse(
          "--at: expected a time such as 2026-03-02T09:15:00+01:00, found "
              + time
              + "; give date, time and offset");
    }
  }

  private void tellLeftOpen(JobDesk desk, Entry entry) {
    console.err().println("asked and not answered, so unconfirmed: " + readBack(desk, entry));
  }

  private void tell(JobDesk desk, RecordedSound.Told told) {
    told.reply().leftOpen().forEach(left -> tellLeftOpen(desk, left));
    if (json) {
      console.out().println(HearJson.line(told));
      remind(told.reply(), console.err());
      return;
    }
    Reply reply = told.reply();
    Entry entry = reply.entry();
    String what =
        switch (reply.status()) {
          case NOTED -> entry == null ? "" : readBack(desk, entry);
          case ASKED -> reply.say();
          case ANSWERED -> reply.answer() == null ? reply.say() : reply.answer().shown();
          case REJECTED -> reply.say().isEmpty() ? "no entry" : reply.say();
        };
    console
        .out()
        .println(
            String.format(
                Locale.ROOT,
                "%8.2f s  %-8s  %s",
                told.startMs() / 1000.0,
                reply.status().name().toLowerCase(Locale.ROOT),
                what));
    remind(reply, console.out());
  }

  private static void remind(Reply reply, PrintWriter to) {
    if (!reply.reminder().isEmpty()) {
      to.println(reply.reminder());
    }
  }

  private static String readBack(JobDesk desk, Entry entry) {
    return desk.plan().grammar().readBack(entry.statement()).written();
  }
}
