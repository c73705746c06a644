package tallyback.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.jetty.websocket.api.Callback;
import org.eclipse.jetty.websocket.api.Session;
import org.jspecify.annotations.Nullable;

/**
 * One connection to a page. Sending never waits: a page that doesn't read is cut off when too much
 * has gathered. May be used from any thread.
 */
final class PageLink {

  /** So much may be on its way to a page: some read-backs of the longest. */
  private static final long MOST_UNREAD_BYTES = 4 << 20;

  /** The longest reason that a close frame takes (RFC 6455, 5.5). */
  private static final int MOST_REASON_BYTES = 123;

  private final Session session;
  private final @Nullable String pairedAs;
  private final AtomicLong unreadBytes = new AtomicLong();
  private volatile @Nullable Hello hello;
  private volatile @Nullable PageClock clock;

  /**
   * What a page says of itself first.
   *
   * @param device names the browser, kept by it
   * @param tab names the tab
   */
  record Hello(String device, String tab) {}

  /**
   * A connection.
   *
   * @param pairedAs the name under which the device was paired; null on this machine
   */
  PageLink(Session session, @Nullable String pairedAs) {
    this.session = session;
    this.pairedAs = pairedAs;
  }

  /** The name under which its device was paired; null for a browser on this machine. */
  @Nullable String pairedAs() {
    return pairedAs;
  }

  /** Who is there; null before it said so. */
  @Nullable Hello hello() {
    return hello;
  }

  /** The page said who it is. */
  void greeted(Hello said, PageClock measuredBy) {
    clock = measuredBy;
    hello = said;
  }

  /** Its clock; null before it said who it is. */
  @Nullable PageClock clock() {
    return clock;
  }

  boolean isOpen() {
    return session.isOpen();
  }

  void send(ObjectNode message) {
    String text = message.toString();
    synchronized (this) {
      if (mayStill(text.length())) {
        session.sendText(text, arrived(text.length()));
      }
    }
  }

  void send(ByteBuffer bytes) {
    int length = bytes.remaining();
    synchronized (this) {
      if (mayStill(length)) {
        session.sendBinary(bytes, arrived(length));
      }
    }
  }

  private boolean mayStill(int length) {
    if (!session.isOpen()) {
      return false;
    }
    if (unreadBytes.addAndGet(length) > MOST_UNREAD_BYTES) {
      session.disconnect();
      return false;
    }
    return true;
  }

  private Callback arrived(int length) {
    return Callback.from(
        () -> unreadBytes.addAndGet(-length), failed -> unreadBytes.addAndGet(-length));
  }

  /** Ends it, with the reason for whoever looks. */
  void close(int status, String reason) {
    byte[] bytes = reason.getBytes(StandardCharsets.UTF_8);
    String told =
        bytes.length <= MOST_REASON_BYTES
            ? reason
            : new String(bytes, 0, MOST_REASON_BYTES - 3, StandardCharsets.UTF_8);
    session.close(status, told, Callback.NOOP);
  }
}
