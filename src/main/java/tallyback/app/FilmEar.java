package tallyback.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Statement.FilmMark;
import tallyback.phrase.Meaning;
import tallyback.speech.Judgement;

/** Listens to the sound of a film for camera marks and for nothing else. Notes nothing. */
public final class FilmEar {

  private FilmEar() {}

  /**
   * A camera mark that was heard.
   *
   * @param number which, or null when no number was said
   * @param placeMs where it begins in the film
   * @param sure false when it may have been something else
   */
  public record Heard(@Nullable Integer number, long placeMs, boolean sure) {}

  /**
   * Listens to a film from its beginning to its end.
   *
   * @param film the film, its sound taken out
   * @param data the data file of the job
   * @param job the job; its plan says what else may be said
   * @param attention the word that begins every entry, or null for none
   * @param progress told how many milliseconds are behind it, now and then
   */
  public static List<Heard> marks(
      RecordedSound.Recording film,
      Path data,
      String job,
      @Nullable String attention,
      LongConsumer progress)
      throws AudioRefused {
    LoadedPlan plan;
    try (LogReader log = SqliteLogs.openForReading(data)) {
      plan = LoadedPlan.of("the plan frozen in job " + job, log.planText(job).orElse(""));
    }
    Ear.requireKnown(plan, attention);
    List<Heard> marks = new ArrayList<>();
    try (Ear ear = Ear.open(plan, attention)) {
      RecordedSound.Listened unused =
          RecordedSound.cut(
              film,
              clip -> {
                progress.accept(clip.endMs());
                Heard heard = heard(plan, ear, clip);
                if (heard != null) {
                  marks.add(heard);
                }
              });
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw RecordedSound.unreadable(film.file(), e);
    }
    return marks;
  }

  private static @Nullable Heard heard(LoadedPlan plan, Ear ear, Clip clip) {
    Ear.Heard heard =
        ear.needsCalling() && ear.call(clip) == Ear.Call.AND_MORE
            ? ear.calledEntry(clip)
            : ear.entry(clip);
    if (heard.judgement() == Judgement.REJECT || heard.readings().isEmpty()) {
      return null;
    }
    return plan.interpreter()
        .read(heard.readings().get(0))
        .map(Meaning::statement)
        .filter(FilmMark.class::isInstance)
        .map(FilmMark.class::cast)
        .map(mark -> new Heard(mark.number(), clip.startMs(), heard.judgement() == Judgement.NOTE))
        .orElse(null);
  }
}
