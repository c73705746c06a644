package tallyback.speech.adapt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tallyback.audio.Clip;

/** A learner of the test's own knows noises by their first sample. */
@Timeout(30)
class NoiseMatchingTest {

  private static final int BLOCK = 1600;

  private final BlockingQueue<Integer> lessons = new LinkedBlockingQueue<>();
  private volatile boolean pays = true;
  private final NoiseMatching matching = NoiseMatching.start(Learner::new, 5);

  @AfterEach
  void close() {
    matching.close();
  }

  private record Model(int noise, Check check) implements NoiseModel {}

  private final class Learner implements NoiseLearner {
    @Override
    public Optional<NoiseModel> learn(Clip noise, double snrDb, Pace pace)
        throws InterruptedException {
      pace.rest();
      int which = noise.sample(noise.length() - 1);
      lessons.add(which);
      return Optional.of(new Model(which, new NoiseModel.Check(9, 5, pays ? 6 : 4, 10, 11)));
    }

    @Override
    public boolean isLike(NoiseModel learned, Clip noise, double snrDb) {
      return learned instanceof Model model && model.noise() == noise.sample(noise.length() - 1);
    }
  }

  private void noise(int which, int seconds) {
    short[] block = new short[BLOCK];
    Arrays.fill(block, (short) which);
    for (int i = 0; i < seconds * 10; i++) {
      matching.add(block, BLOCK, false);
    }
  }

  private List<NoiseModel> news() throws InterruptedException {
    while (true) {
      Optional<NoiseMatching.News> news = matching.news();
      if (news.isPresent()) {
        return news.get().useful();
      }
      Thread.sleep(5);
    }
  }

  @Test
  void aNoiseIsLearnedOnceSomebodyHasSpokenInIt() throws InterruptedException {
    noise(1, 6);
    assertEquals(null, lessons.poll(100, TimeUnit.MILLISECONDS));

    matching.heard(15);

    assertEquals(1, lessons.take());
    assertEquals(1, news().size());
    assertTrue(matching.news().isEmpty());
    noise(1, 6);
    assertEquals(null, lessons.poll(200, TimeUnit.MILLISECONDS));
  }

  @Test
  void aNoiseThatComesBackIsKnown() throws InterruptedException {
    matching.heard(15);
    noise(1, 6);
    assertEquals(1, news().size());
    noise(2, 6);
    assertEquals(2, news().size());
    noise(1, 30);
    lessons.clear();

    assertEquals(null, lessons.poll(200, TimeUnit.MILLISECONDS));
    assertTrue(matching.news().isEmpty());
  }

  @Test
  void onlyAFewAreKept() throws InterruptedException {
    matching.heard(15);
    for (int which = 1; which <= 6; which++) {
      noise(which, 6);
      List<NoiseModel> known = news();
      assertEquals(Math.min(which, 4), known.size());
      assertEquals(which, ((Model) known.get(known.size() - 1)).noise());
    }
  }

  @Test
  void whatDoesNotPayIsNotUsedAndNotLearnedAgain() throws InterruptedException {
    pays = false;
    matching.heard(15);
    noise(1, 6);
    assertEquals(List.of(), news());
    lessons.clear();
    noise(1, 6);

    assertEquals(null, lessons.poll(200, TimeUnit.MILLISECONDS));
    assertTrue(matching.news().isEmpty());
  }

  @Test
  void inTheQuietThereIsNothingToLearn() throws InterruptedException {
    matching.heard(40);
    noise(1, 6);

    assertEquals(null, lessons.poll(200, TimeUnit.MILLISECONDS));
  }
}
