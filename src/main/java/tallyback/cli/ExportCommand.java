package tallyback.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tallyback.app.CheckedJob;
import tallyback.app.Clock;
import tallyback.app.ExportFile;
import tallyback.app.FilmEar;
import tallyback.app.FilmPlace;
import tallyback.app.FilmSounds;
import tallyback.app.RecordedSound;
import tallyback.app.WrongUse;
import tallyback.audio.AudioRefused;
import tallyback.export.Export;
import tallyback.export.Film;
import tallyback.export.Written;
import tallyback.report.JobRecord;

/** {@code export}: a job for other programs, and for a film of it. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a job in another form, by the ending of the file's name:",
      ".vtt captions of a film (with --chapters its chapters), .csv every entry as a row, .jsonl"
          + " every entry as a line of JSON, .ics a calendar of what to look at again, .md the log"
          + " to read.",
      "A file of that name is replaced. For a film, say when it began: by --film-begins, by --mark,"
          + " or by --film alone, whose sound is listened to for a spoken \"camera mark one\"."
    })
final class ExportCommand implements Callable<Integer> {

  private static final Pattern MARK = Pattern.compile("(\\d{1,4})=(.+)");
  private static final Duration WORTH_TELLING = Duration.ofMinutes(1);

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();
  @Mixin private FilmOption film = new FilmOption();

  @Option(
      names = "--out",
      required = true,
      paramLabel = "FILE",
      description = "The file to write; its name ends in .vtt, .csv, .jsonl, .ics or .md.")
  private @Nullable Path out;

  @Option(
      names = "--chapters",
      description = "Into a .vtt: the steps as chapters instead of captions.")
  private boolean chapters;

  @Option(
      names = "--film",
      paramLabel = "FILM",
      description =
          "The film. It tells its length; when nothing else says when it began, its sound is"
              + " listened to for camera marks.")
  private @Nullable Path filmFile;

  @Option(
      names = "--film-begins",
      paramLabel = "TIME",
      description = "When the film began, such as 2026-03-02T09:15:00+01:00.")
  private @Nullable String begins;

  @Option(
      names = "--film-lasts",
      paramLabel = "LENGTH",
      description =
          "How long it is, such as 1:02:30; what was said after it is left out. Default: by"
              + " --film, else it has no end.")
  private @Nullable String lasts;

  @Option(
      names = "--mark",
      paramLabel = "NUMBER=PLACE",
      description =
          "Where a camera mark of the job is said in the film, such as 1=0:12.5; may be given more"
              + " than once.")
  private List<String> marks = new ArrayList<>();

  @Option(
      names = "--attention",
      paramLabel = "WORD|none",
      description = "The word that begins every entry in the film. Default: none.")
  private String attention = "none";

  ExportCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws AudioRefused {
    Path file = Objects.requireNonNull(out, "picocli asks for it");
    ExportFile.Form form = ExportFile.formOf(file);
    ExportFile.requirePlace(file);
    requireFilmOnlyWhere(form);
    CheckedJob checked = CheckedJob.read(data.toRead(), job.id());
    JobRecord record = checked.record(console.clock().instant(), null);
    Written written =
        switch (form) {
          case CSV -> Export.csv(record);
          case JSONL -> Export.jsonLines(record);
          case ICS -> Export.calendar(record);
          case MD -> Export.markdown(record);
          case VTT -> {
            Film where = film(record);
            yield chapters ? Export.chapters(record, where) : Export.captions(record, where);
          }
        };
    written.notices().forEach(console.err()::println);
    if (written.parts() == 0) {
      return ExitCode.WRONG_USE;
    }
    ExportFile.write(file, written.text());
    console.out().println(file.toAbsolutePath());
    return ExitCode.CLEAR;
  }

  private void requireFilmOnlyWhere(ExportFile.Form form) {
    boolean any = chapters || filmFile != null || begins != null || lasts != null;
    if (form != ExportFile.Form.VTT && (any || !marks.isEmpty())) {
      throw new WrongUse(
          "expected a film's options with a file that ends in .vtt, found another ending; leave"
              + " them out, or name the file so");
    }
    if (begins != null && !marks.isEmpty()) {
      throw new WrongUse(
          "expected --film-begins or --mark, found both; give the one you are sure of");
    }
  }

  private Film film(JobRecord record) throws AudioRefused {
    ZoneId zone = record.heading().zone();
    Duration length = lasts == null ? null : place("--film-lasts", lasts);
    List<FilmPlace.Said> said = new ArrayList<>(marks.stream().map(ExportCommand::mark).toList());
    List<Export.Mark> known = Export.filmMarks(record);
    if (begins == null && said.isEmpty() && filmFile == null) {
      throw new WrongUse(
          "expected to be told when the film began; give --film-begins TIME, --mark NUMBER=PLACE,"
              + " or --film FILM with a spoken camera mark in it. Camera marks of this job: "
              + FilmPlace.told(known, zone));
    }
    Instant first = begins == null ? null : time(begins);
    try (FilmSounds sounds = film.sounds(data.usualFolder(), console)) {
      Instant camera = null;
      if (filmFile != null && FilmSounds.isFilm(filmFile)) {
        var about = sounds.about(filmFile);
        length = length == null ? about.length() : length;
        camera = about.begun();
      }
      if (first == null && said.isEmpty()) {
        said = heard(sounds, Objects.requireNonNull(filmFile), record, known, camera);
      }
      FilmPlace place =
          first == null ? FilmPlace.by(known, said, zone) : new FilmPlace(first, List.of());
      place.notices().forEach(console.err()::println);
      tell(place.begins(), camera, zone, first == null);
      sounds.notices().forEach(console.err()::println);
      return new Film(place.begins(), length);
    }
  }

  private void tell(Instant begun, @Nullable Instant camera, ZoneId zone, boolean found) {
    if (found) {
      console.err().println("the film begins " + FilmPlace.time(begun, zone));
    }
    if (camera != null && Duration.between(begun, camera).abs().compareTo(WORTH_TELLING) > 0) {
      console
          .err()
          .println(
              "the film says of itself that it was begun "
                  + FilmPlace.time(camera, zone)
                  + ", by the camera's clock; that was not taken");
    }
  }

  private List<FilmPlace.Said> heard(
      FilmSounds sounds,
      Path file,
      JobRecord record,
      List<Export.Mark> known,
      @Nullable Instant camera)
      throws AudioRefused {
    ZoneId zone = record.heading().zone();
    if (known.isEmpty()) {
      throw new WrongUse(
          "expected a camera mark in this job, found none, so "
              + file
              + " can't be laid beside it by ear; give --film-begins"
              + suggestion(camera, zone));
    }
    RecordedSound.Recording sound = sounds.ready(List.of(file)).get(0);
    String word = attention.equals("none") ? null : attention.toLowerCase(Locale.ROOT);
    List<FilmEar.Heard> heard =
        FilmEar.marks(
            sound,
            data.toRead(),
            record.heading().job(),
            word,
            done ->
                FilmOption.progress(
                    console, file + ": listening for camera marks, " + FilmOption.far(done, 0)));
    FilmOption.progressOver(console);
    List<FilmPlace.Said> sure = new ArrayList<>();
    List<String> doubtful = new ArrayList<>();
    for (FilmEar.Heard each : heard) {
      if (each.sure()) {
        sure.add(new FilmPlace.Said(each.number(), Duration.ofMillis(each.placeMs())));
      } else {
        doubtful.add(
            "at "
                + Clock.of(each.placeMs())
                + " it may be camera mark "
                + (each.number() == null ? "without a number" : each.number().toString()));
      }
    }
    if (sure.isEmpty()) {
      throw new WrongUse(
          file
              + ": expected a camera mark in its sound, heard "
              + (doubtful.isEmpty()
                  ? "none"
                  : "none that is sure (" + String.join(", ", doubtful) + ")")
              + "; say where one is with --mark NUMBER=PLACE, or give --film-begins"
              + suggestion(camera, zone)
              + ". This job: "
              + FilmPlace.told(known, zone));
    }
    sure.forEach(
        each ->
            console
                .err()
                .println(
                    file
                        + ": camera mark"
                        + (each.number() == null ? "" : " " + each.number())
                        + " heard at "
                        + Clock.of(each.place().toMillis())));
    return sure;
  }

  /** What the film says of itself, for the user to judge. */
  static String suggestion(@Nullable Instant camera, ZoneId zone) {
    return camera == null
        ? " TIME"
        : " "
            + FilmPlace.time(camera, zone)
            + " if the camera's clock was right: that is what the film says of itself";
  }

  private static FilmPlace.Said mark(String text) {
    Matcher part = MARK.matcher(text);
    if (!part.matches()) {
      throw new WrongUse(
          "--mark: expected a camera mark's number and its place in the film, such as 1=0:12.5,"
              + " found "
              + text
              + "; give both");
    }
    return new FilmPlace.Said(Integer.valueOf(part.group(1)), place("--mark", part.group(2)));
  }

  private static Duration place(String option, String text) {
    return Clock.read(text)
        .orElseThrow(
            () ->
                new WrongUse(
                    option
                        + ": expected hours, minutes and seconds such as 1:02:30.5 or 0:12.5,"
                        + " found "
                        + text
                        + "; write it so"));
  }

  private static Instant time(String text) {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeParseException e) {
      throw new WrongUse(
          "--film-begins: expected a time such as 2026-03-02T09:15:00+01:00, found "
              + text
              + "; give date, time and offset");
    }
  }
}
