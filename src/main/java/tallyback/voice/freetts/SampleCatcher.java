package tallyback.voice.freetts;

import com.sun.speech.freetts.audio.AudioPlayer;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import javax.sound.sampled.AudioFormat;
import tallyback.audio.Clip;

/** Keeps what the library would play. */
final class SampleCatcher implements AudioPlayer {

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private AudioFormat format = new AudioFormat(Clip.SAMPLE_RATE_HZ, 16, 1, true, true);
  private float volume = 1;

  /** All that was played so far. */
  Clip clip() {
    if (format.getSampleRate() != Clip.SAMPLE_RATE_HZ || format.getChannels() != 1) {
      throw new IllegalStateException("expected a voice of 16 kHz mono, found " + format);
    }
    ByteBuffer buffer =
        ByteBuffer.wrap(bytes.toByteArray())
            .order(format.isBigEndian() ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
    short[] samples = new short[buffer.remaining() / Short.BYTES];
    buffer.asShortBuffer().get(samples);
    return new Clip(samples, 0);
  }

  @Override
  public void setAudioFormat(AudioFormat format) {
    this.format = format;
  }

  @Override
  public AudioFormat getAudioFormat() {
    return format;
  }

  @Override
  public boolean write(byte[] audioData) {
    return write(audioData, 0, audioData.length);
  }

  @Override
  public boolean write(byte[] audioData, int offset, int size) {
    bytes.write(audioData, offset, size);
    return true;
  }

  @Override
  public float getVolume() {
    return volume;
  }

  @Override
  public void setVolume(float volume) {
    this.volume = volume;
  }

  @Override
  public boolean drain() {
    return true;
  }

  @Override
  public boolean end() {
    return true;
  }

  @Override
  public void begin(int size) {}

  @Override
  public void cancel() {}

  @Override
  public void pause() {}

  @Override
  public void resume() {}

  @Override
  public void reset() {}

  @Override
  public void close() {}

  @Override
  public long getTime() {
    return -1;
  }

  @Override
  public void resetTime() {}

  @Override
  public void startFirstSampleTimer() {}

  @Override
  public void showMetrics() {}
}
