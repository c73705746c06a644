package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import org.junit.jupiter.api.Test;

class OpenEarTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final short[] ROOM = tone(10);
  private static final short[] SPEECH = tone(3000);

  private boolean held = true;
  private boolean headset;

  private static short[] tone(int height) {
    short[] samples = new short[OpenEar.BLOCK];
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) (i % 2 == 0 ? height : -height);
    }
    return samples;
  }

  private OpenEar ear() {
    return new OpenEar(InstantSource.fixed(NINE), () -> held, headset);
  }

  private static OpenEar.Sound take(OpenEar ear, short[] block, int times, boolean speaking) {
    OpenEar.Sound last = ear.take(block, block.length, speaking, false);
    for (int i = 1; i < times; i++) {
      last = ear.take(block, block.length, speaking, false);
    }
    return last;
  }

  @Test
  void whileTheMachineSleepsTimeGoesByAndNoSampleIsCounted() {
    Instant[] now = {NINE};
    OpenEar ear = new OpenEar(() -> now[0], () -> true, false);
    for (int i = 0; i < 50; i++) {
      assertFalse(ear.rested(ROOM.length, false, false));
      take(ear, ROOM, 1, false);
      now[0] = now[0].plusMillis(20);
    }
    now[0] = now[0].plusSeconds(3600);
    assertTrue(ear.rested(ROOM.length, false, true));
    take(ear, ROOM, 1, false);
    assertEquals(NINE.plusMillis(480), ear.at(500), "what was said before");
    assertEquals(NINE.plusSeconds(3601).plusMillis(-20), ear.at(1000));
    now[0] = now[0].plusMillis(20);
    assertFalse(ear.rested(ROOM.length, false, false));
  }

  @Test
  void timesFollowASlowSoundCardWhileNobodySpeaks() {
    Instant[] now = {NINE};
    OpenEar ear = new OpenEar(() -> now[0], () -> true, false);
    take(ear, ROOM, 50, false);
    now[0] = NINE.plusMillis(1400);
    assertFalse(ear.rested(ROOM.length, false, true));
    assertEquals(NINE.plusMillis(980), ear.now());
    assertFalse(ear.rested(ROOM.length, false, false));
    assertEquals(NINE.plusMillis(1380), ear.now());
  }

  @Test
  void allIsHeardAndHasItsTime() {
    OpenEar ear = ear();
    assertTrue(Arrays.equals(ROOM, take(ear, ROOM, 50, false).heard()));
    assertEquals(NINE.minusMillis(20), ear.at(0));
    assertEquals(NINE.plusMillis(480), ear.at(500));
    assertEquals(NINE.plusMillis(980), ear.now());
  }

  @Test
  void itsOwnVoiceAndTheEchoOfItAreNotHeardButTheirTimeCounts() {
    OpenEar ear = ear();
    take(ear, ROOM, 50, false);
    assertEquals(0, take(ear, SPEECH, 100, true).heard().length);
    assertEquals(0, take(ear, SPEECH, 10, false).heard().length, "200 ms of echo");
    assertEquals(OpenEar.BLOCK, take(ear, ROOM, 1, false).heard().length);
    assertEquals(NINE.plusMillis(480), ear.at(500), "before");
    assertEquals(NINE.plusMillis(980 + 2200), ear.at(1000), "after");
  }

  @Test
  void whoSpeaksUpIsNoticedOnlyWithAHeadset() {
    OpenEar without = ear();
    take(without, ROOM, 50, false);
    assertFalse(take(without, SPEECH, 10, true).spokenInto());
    headset = true;
    OpenEar with = ear();
    take(with, ROOM, 50, false);
    assertFalse(take(with, ROOM, 50, true).spokenInto(), "nobody speaks");
    assertFalse(take(with, SPEECH, 9, true).spokenInto(), "too short");
    assertTrue(take(with, SPEECH, 1, true).spokenInto());
  }

  @Test
  void whatWasSpokenIntoItIsDroppedToItsEnd() {
    headset = true;
    OpenEar ear = ear();
    take(ear, ROOM, 50, false);
    take(ear, SPEECH, 10, true);
    assertEquals(0, take(ear, SPEECH, 100, false).heard().length);
    OpenEar.Sound pause = take(ear, ROOM, 29, false);
    assertFalse(pause.askAgain());
    assertTrue(take(ear, ROOM, 1, false).askAgain(), "600 ms of quiet");
    assertEquals(OpenEar.BLOCK, take(ear, ROOM, 1, false).heard().length);
  }

  @Test
  void anEngineThatStartsMeanwhileIsNotTakenForSomebodyForEver() {
    headset = true;
    OpenEar ear = ear();
    take(ear, ROOM, 50, false);
    take(ear, SPEECH, 10, true);
    boolean again = false;
    for (int i = 0; i < 1000 && !again; i++) {
      again = take(ear, SPEECH, 1, false).askAgain();
    }
    assertTrue(again, "within 20 s");
  }

  @Test
  void whileTheKeyIsUpNothingIsHeardAndLettingItGoEndsTheUtterance() {
    held = false;
    OpenEar ear = ear();
    assertEquals(0, take(ear, ROOM, 50, false).heard().length);
    held = true;
    assertTrue(Arrays.equals(SPEECH, take(ear, SPEECH, 10, false).heard()));
    held = false;
    short[] closing = take(ear, SPEECH, 1, false).heard();
    assertEquals(OpenEar.BLOCK * 46, closing.length);
    assertEquals(ROOM[0], closing[closing.length - OpenEar.BLOCK], "the room, not the last word");
    assertEquals(0, take(ear, ROOM, 50, false).heard().length);
    held = true;
    take(ear, SPEECH, 1, false);
    assertEquals(
        ear.now().minusMillis(20), ear.at(220 + 900), "the made-up end of before takes no time");
  }
}
