package tallyback.speech;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tallyback.audio.Clip;

@Timeout(60)
class SecondEarTest {

  private static final Duration LONG = Duration.ofSeconds(20);
  private static final Duration SHORT = Duration.ofMillis(50);

  private final List<String> told = Collections.synchronizedList(new ArrayList<>());

  /** Its length in samples is what is said in it. */
  private static Clip clip(int length) {
    return new Clip(new short[length], 0);
  }

  /** Prints the length of a clip; one of three samples is beyond it, and one of two breaks it. */
  private static class Counting implements SecondRecogniser {

    final CountDownLatch stuck = new CountDownLatch(1);
    final AtomicReference<Thread> owner = new AtomicReference<>(Thread.currentThread());
    volatile boolean closed;

    @Override
    public String hear(Clip clip) throws SecondFailed, InterruptedException {
      assertEquals(owner.get(), Thread.currentThread());
      if (clip.length() == 3) {
        stuck.await();
      }
      if (clip.length() == 2) {
        throw new SecondFailed("it broke; mend it");
      }
      if (clip.length() == 1) {
        throw new UnsatisfiedLinkError("no native part");
      }
      return clip.length() == 0 ? "" : Integer.toString(clip.length());
    }

    @Override
    public void close() {
      closed = true;
      assertEquals(owner.get(), Thread.currentThread());
    }
  }

  private final AtomicReference<Counting> opened = new AtomicReference<>();

  private SecondEar ear(Duration patience) throws InterruptedException {
    SecondEar ear =
        SecondEar.start(
            () -> {
              Counting counting = new Counting();
              opened.set(counting);
              return counting;
            },
            patience,
            told::add);
    assertTrue(ear.awaitReady(LONG));
    return ear;
  }

  @Test
  void answersOnAThreadOfItsOwn() throws InterruptedException {
    try (SecondEar ear = ear(LONG)) {
      assertEquals(Optional.of("7"), ear.ask(clip(7)).printed());
      assertEquals(Optional.of("8"), ear.ask(clip(8)).printed());
      assertEquals(Optional.empty(), ear.ask(clip(0)).printed(), "nothing understood");
    }
    assertTrue(opened.get().closed);
    assertEquals(List.of(), told);
  }

  @Test
  void whoIsStuckHoldsNobodyUpAndThatIsToldOnce() throws InterruptedException {
    try (SecondEar ear = ear(SHORT)) {
      long before = System.nanoTime();
      for (int i = 0; i < 12; i++) {
        assertEquals(Optional.empty(), ear.ask(clip(3)).printed());
      }
      assertTrue(System.nanoTime() - before < Duration.ofSeconds(10).toNanos());
      assertEquals(1, told.size(), told::toString);
      assertTrue(told.get(0).contains("too slow"), told::toString);
      opened.get().stuck.countDown();
      Optional<String> late = Optional.empty();
      for (int i = 0; i < 100 && late.isEmpty(); i++) {
        late = ear.ask(clip(9)).printed();
      }
      assertEquals(
          Optional.of("9"), late, "it answers again, and never with what was asked before");
    }
  }

  @Test
  void whatFailsIsToldOnceAndHasNoOpinionFromThenOn() throws InterruptedException {
    try (SecondEar ear = ear(LONG)) {
      assertEquals(Optional.empty(), ear.ask(clip(2)).printed());
      assertEquals(Optional.empty(), ear.ask(clip(7)).printed());
      assertEquals(Optional.empty(), ear.ask(clip(2)).printed());
    }
    assertEquals(
        List.of("second recogniser: it broke; mend it; hearing goes on with the first alone"),
        told);
    assertTrue(opened.get().closed);
  }

  @Test
  void aNativePartThatDoesNotFitIsNoWorse() throws InterruptedException {
    try (SecondEar ear = ear(LONG)) {
      assertEquals(Optional.empty(), ear.ask(clip(1)).printed());
    }
    assertEquals(1, told.size(), told::toString);
    assertTrue(told.get(0).contains("no native part"), told::toString);
  }

  @Test
  void whatCannotBeOpenedIsToldOnce() throws InterruptedException {
    try (SecondEar ear =
        SecondEar.start(
            () -> {
              throw new SecondFailed("no model in /nowhere; name its folder");
            },
            LONG,
            told::add)) {
      assertFalse(ear.awaitReady(LONG));
      assertEquals(Optional.empty(), ear.ask(clip(7)).printed());
    }
    assertEquals(
        List.of(
            "second recogniser: no model in /nowhere; name its folder;"
                + " hearing goes on with the first alone"),
        told);
  }

  @Test
  void whileItIsOpenedThereIsNoOpinionAndNobodyWaits() throws InterruptedException {
    CountDownLatch open = new CountDownLatch(1);
    try (SecondEar ear =
        SecondEar.start(
            () -> {
              open.await();
              return new Counting();
            },
            LONG,
            told::add)) {
      long before = System.nanoTime();
      assertEquals(Optional.empty(), ear.ask(clip(7)).printed());
      assertTrue(System.nanoTime() - before < Duration.ofSeconds(10).toNanos());
      open.countDown();
      assertTrue(ear.awaitReady(LONG));
      assertEquals(Optional.of("7"), ear.ask(clip(7)).printed());
    }
  }

  @Test
  void closingDoesNotWaitForWhoIsStuck() throws InterruptedException {
    SecondEar ear = ear(SHORT);
    assertEquals(Optional.empty(), ear.ask(clip(3)).printed());
    ear.close();
    assertTrue(opened.get().closed);
    assertEquals(List.of(), told);
  }
}
