package tallyback.app;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.NoiseLearner;
import tallyback.speech.adapt.NoiseMatching;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * The noise of the shop, learned in the background while a job is listened to, on recordings whose
 * words are known: those of the voice that is expected, if it was taught in the quiet, and bundled
 * ones.
 *
 * <p>Thread rule: {@link #add} belongs to the thread of the sound, {@link #swap} to that of the
 * hearing; {@link #heard} may be called from any.
 */
final class ShopNoise implements AutoCloseable {

  private final NoiseMatching matching;
  private final NoiseDiary diary;

  private ShopNoise(NoiseMatching matching, NoiseDiary diary) {
    this.matching = matching;
    this.diary = diary;
  }

  /** Starts; nothing is read before there is something to learn. */
  static ShopNoise start(LoadedPlan plan, NoiseDiary diary) {
    return new ShopNoise(NoiseMatching.start(() -> learner(plan)), diary);
  }

  private static NoiseLearner learner(LoadedPlan plan) {
    List<Lesson> own = plan.voices().lessonsOfFirst(plan.lexicon(), NoiseMatching.LESSONS / 2);
    List<Lesson> lessons = new ArrayList<>(own);
    lessons.addAll(BundledSpeech.read(plan.lexicon(), NoiseMatching.LESSONS - own.size()));
    return SphinxRecognisers.learner(
        lessons, plan.grammar().entries(), plan.lexicon(), plan.grammar()::sense);
  }

  /** Takes the next samples, 16 kHz mono. */
  void add(short[] samples, boolean speech) {
    matching.add(samples, samples.length, speech);
  }

  /** An utterance stood so far above the noise. */
  void heard(double snrDb) {
    matching.heard(snrDb);
  }

  /**
   * Lets an ear use what was learned since.
   *
   * @return what came of the noise that was tried last; empty when nothing is new
   */
  Optional<NoiseDiary.Tried> swap(Ear ear, Instant now) {
    Optional<NoiseMatching.News> news = matching.news();
    news.ifPresent(fresh -> ear.use(fresh.useful()));
    Optional<NoiseDiary.Tried> tried = news.map(fresh -> NoiseDiary.Tried.of(now, fresh.last()));
    tried.ifPresent(diary::add);
    return tried;
  }

  @Override
  public void close() {
    matching.close();
  }
}
