package tallyback.web;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.SoundOut;

/**
 * Plays at the page that listens; with none there, what is said aloud is only shown. A sound goes
 * out in one piece, all numbers little endian: magic "TBOU", its number (4 bytes), how many samples
 * (4), the samples as 16 kHz mono 16-bit PCM. The page says when it has ended.
 */
final class PagePlayer implements SoundOut {

  private static final int MAGIC = 0x554F4254;
  private static final int HEADER = 12;

  /** A page that doesn't say that it has played something is not waited for any longer. */
  private static final int PATIENCE_MS = 3000;

  private static final int LOOK_MS = 20;

  private final Supplier<@Nullable PageLink> page;
  private final Consumer<PageLink> hush;
  private int number;
  private boolean playing;
  private volatile boolean closed;

  PagePlayer(Supplier<@Nullable PageLink> page, Consumer<PageLink> hush) {
    this.page = page;
    this.hush = hush;
  }

  @Override
  public boolean play(Clip clip, BooleanSupplier wanted) {
    PageLink there = page.get();
    if (there == null || clip.length() == 0) {
      return true;
    }
    if (closed || !wanted.getAsBoolean()) {
      return false;
    }
    ByteBuffer bytes =
        ByteBuffer.allocate(HEADER + clip.length() * Short.BYTES).order(ByteOrder.LITTLE_ENDIAN);
    synchronized (this) {
      playing = true;
      number++;
      bytes.putInt(MAGIC).putInt(number).putInt(clip.length()).put(clip.toPcmBytes()).flip();
    }
    there.send(bytes);
    BooleanSupplier goesOn = () -> !closed && wanted.getAsBoolean();
    await(there, goesOn, System.nanoTime() + (clip.durationMs() + PATIENCE_MS) * 1_000_000);
    if (!goesOn.getAsBoolean()) {
      hush.accept(there);
      return false;
    }
    return true;
  }

  private synchronized void await(PageLink there, BooleanSupplier goesOn, long untilNanos) {
    try {
      while (playing && goesOn.getAsBoolean() && there.isOpen() && System.nanoTime() < untilNanos) {
        wait(LOOK_MS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    playing = false;
  }

  /** The page has played a sound, or stopped it. */
  synchronized void ended(int which) {
    if (which == number) {
      playing = false;
      notifyAll();
    }
  }

  @Override
  public void close() {
    closed = true;
  }
}
