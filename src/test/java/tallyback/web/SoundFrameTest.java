package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class SoundFrameTest {

  private static final UUID STREAM = UUID.fromString("01234567-89ab-4cde-8f01-23456789abcd");
  private static final short[] SOUND = {1, -2, 32_767, -32_768};

  private static ByteBuffer good() {
    return TestPage.frame(STREAM, SOUND, 0, SOUND.length, 1.7e12, 5).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static String refused(ByteBuffer bytes) {
    return String.valueOf(
        assertThrows(BadMessage.class, () -> SoundFrame.read(bytes)).getMessage());
  }

  @Test
  void isReadAsItWasWritten() {
    SoundFrame frame = SoundFrame.read(good());
    assertEquals(STREAM, frame.stream());
    assertArrayEquals(SOUND, frame.samples());
    assertEquals(1.7e12, frame.pageMs());
    assertEquals(4, frame.end());
    assertTrue(frame.held() && frame.free() && !frame.playing());
  }

  @Test
  void whatIsNoneIsRefusedWithWhatWasExpected() {
    assertTrue(refused(ByteBuffer.allocate(0)).contains("TBIN"));
    assertTrue(
        refused(
                ByteBuffer.wrap(
                    "RIFF and so on, quite long enough to be one"
                        .getBytes(java.nio.charset.StandardCharsets.US_ASCII)))
            .contains("TBIN"));
    assertTrue(refused(good().put(4, (byte) 2)).contains("version 1"));
    assertTrue(refused(good().putShort(6, (short) 3)).contains("announced"));
    assertTrue(refused(good().putShort(6, (short) 0)).contains("announced"));
    assertTrue(refused(good().putLong(24, -1)).contains("first sample"));
    assertTrue(refused(good().putLong(24, Long.MAX_VALUE)).contains("first sample"));
    assertTrue(refused(good().putDouble(32, Double.NaN)).contains("time"));
  }
}
