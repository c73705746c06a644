package tallyback.speech.adapt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class VoiceFileTest {

  private static final TaughtVoice VOICE =
      new TaughtVoice(
          Instant.parse("2026-03-02T09:00:00Z"),
          new Measured(20, 15, 18, 0, 31.5),
          new Measured(20, 17, 19, 0, 44.25),
          new VoiceProfile(
              "0123456789abcdef",
              List.of(
                  MeanMap.of(new double[][] {{0.9, 0.1, -0.25}, {0, 1.1, 0.5}}),
                  MeanMap.of(new double[][] {{1, 1e-9}})),
              List.of(
                  MeanShifts.of(
                      2,
                      new TreeMap<>(Map.of(3, new double[] {0.5, -1}, 70, new double[] {2, 1e-4}))),
                  MeanShifts.of(1, new TreeMap<>()))));

  private static void damaged(String text, String what) {
    String message =
        String.valueOf(
            assertThrows(VoiceFileDamaged.class, () -> VoiceFile.read(text)).getMessage());
    assertTrue(message.contains(what), message);
  }

  @Test
  void whatIsWrittenIsRead() throws VoiceFileDamaged {
    assertEquals(VOICE, VoiceFile.read(VoiceFile.write(VOICE)));
  }

  @Test
  void aTruncatedFileIsDamaged() {
    String text = VoiceFile.write(VOICE);
    for (int length = 0; length < text.length() - 2; length += 7) {
      String part = text.substring(0, length);
      assertThrows(VoiceFileDamaged.class, () -> VoiceFile.read(part), part);
    }
  }

  @Test
  void whatIsNoVoiceIsDamaged() {
    String text = VoiceFile.write(VOICE);
    damaged("shopping list", "no JSON");
    damaged("[]", "expected schema 1");
    damaged(text.replace("\"schema\":1", "\"schema\":2"), "newer version");
    damaged(text.replace("\"shifts\":[\"", "\"shifts\":[\"AAAA"), "shifts");
    damaged(text.replace("\"shifts\":[\"", "\"shifts\":[\"?"), "base64");
    damaged(text.replace("\"shifts\":[", "\"shifts\":[\"\","), "too little");
    damaged(text.substring(0, text.indexOf(",\"shifts\"")) + "}", "expected shifts for 2 maps");
    damaged(text.replace("0.9,", ""), "rows");
    damaged(text.replace("0.9,", "\"much\","), "expected a number");
    damaged(text.replace("0.9,", "9e9,"), "small numbers");
    damaged(text.replace("\"noted\":15", "\"noted\":21"), "at most 20 lines");
    damaged(text.replace("2026-03-02", "yesterday"), "yesterday");
  }

  @Test
  void betterIsMoreNotedAndNeverMoreWrong() {
    Measured before = new Measured(20, 15, 18, 1, 30);
    assertTrue(new Measured(20, 16, 18, 1, 30).isBetterThan(before));
    assertTrue(new Measured(20, 15, 19, 0, 20).isBetterThan(before));
    assertTrue(new Measured(20, 15, 18, 1, 36).isBetterThan(before));
    assertFalse(new Measured(20, 15, 18, 1, 31).isBetterThan(before));
    assertFalse(new Measured(20, 18, 18, 2, 60).isBetterThan(before));
    assertFalse(new Measured(20, 14, 19, 0, 60).isBetterThan(before));
    assertFalse(before.isBetterThan(before));
  }
}
