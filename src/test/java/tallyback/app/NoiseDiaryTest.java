package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.speech.adapt.NoiseModel;

class NoiseDiaryTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final NoiseDiary.Tried GOOD =
      NoiseDiary.Tried.of(NINE, new NoiseModel.Check(10, 7, 9, 1, 2));
  private static final NoiseDiary.Tried VAIN =
      NoiseDiary.Tried.of(NINE.plusSeconds(60), new NoiseModel.Check(10, 7, 6, 1, 2));

  @TempDir private Path folder;

  @Test
  void whatWasWrittenDownIsReadAgain() {
    NoiseDiary diary = new NoiseDiary(folder.resolve("home"));
    assertEquals(List.of(), diary.all());

    diary.add(GOOD);
    diary.add(VAIN);

    assertEquals(List.of(GOOD, VAIN), new NoiseDiary(folder.resolve("home")).all());
  }

  @Test
  void itSaysWhetherItHelped() {
    assertEquals("Used to this noise now: 9 of 10 trial phrases, before 7", GOOD.said());
    assertEquals("Not used to this noise: learning it was no help", VAIN.said());
  }

  @Test
  void onlyTheLatestAreKept() {
    NoiseDiary diary = new NoiseDiary(folder);
    List<NoiseDiary.Tried> all = new ArrayList<>();
    for (int i = 0; i < 105; i++) {
      NoiseDiary.Tried each = new NoiseDiary.Tried(NINE.plusSeconds(i), 10, 5, 6, true);
      all.add(each);
      diary.add(each);
    }

    assertEquals(all.subList(5, 105), diary.all());
  }

  @Test
  void whatIsNoDiaryIsPassedOver() throws IOException {
    Path file = folder.resolve("noises.tsv");
    NoiseDiary diary = new NoiseDiary(folder);
    diary.add(GOOD);
    Files.writeString(file, Files.readString(file) + "\n\nyesterday\t1\t1\t1\tno\n1\t2\n");
    assertEquals(List.of(GOOD), diary.all());

    Files.write(file, new byte[] {(byte) 0xff, (byte) 0xfe});
    assertEquals(List.of(), diary.all());
  }

  @Test
  void aFileThatCannotBeReadIsNamed() throws IOException {
    Files.createDirectory(folder.resolve("noises.tsv"));

    MachineFailed failed = assertThrows(MachineFailed.class, () -> new NoiseDiary(folder).all());

    assertTrue(
        String.valueOf(failed.getMessage())
            .startsWith(folder.resolve("noises.tsv") + ": can't be read"));
  }
}
