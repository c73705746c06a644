package tallyback.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A wire between a browser and a server on which nothing gets through for a while, as when a
 * wireless network is out of reach: neither side is told.
 */
final class Wire implements AutoCloseable {

  private static final int LOOK_MS = 20;
  private static final Charset LATIN = StandardCharsets.ISO_8859_1;

  private final ServerSocket end;
  private final int serverPort;
  private final Set<Socket> sockets = ConcurrentHashMap.newKeySet();
  private volatile boolean dead;

  /** A wire to a port of this machine. */
  Wire(int serverPort) throws IOException {
    this.serverPort = serverPort;
    end = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    start(this::accept);
  }

  int port() {
    return end.getLocalPort();
  }

  void goesDead(boolean now) {
    dead = now;
  }

  private static void start(Runnable work) {
    Thread thread = new Thread(work, "wire");
    thread.setDaemon(true);
    thread.start();
  }

  private void accept() {
    try {
      while (!end.isClosed()) {
        Socket browser = end.accept();
        Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort);
        sockets.add(browser);
        sockets.add(server);
        start(() -> carry(browser, server, true));
        start(() -> carry(server, browser, false));
      }
    } catch (IOException closed) {
      // Nobody connects any more.
    }
  }

  private void carry(Socket from, Socket to, boolean toServer) {
    byte[] piece = new byte[1 << 16];
    try (from;
        to) {
      InputStream in = from.getInputStream();
      OutputStream out = to.getOutputStream();
      for (int count = in.read(piece); count >= 0; count = in.read(piece)) {
        while (dead) {
          Thread.sleep(LOOK_MS);
        }
        boolean isRequest = toServer && count > 4 && new String(piece, 0, 4, LATIN).equals("GET ");
        out.write(isRequest ? addressed(piece, count) : Arrays.copyOf(piece, count));
      }
    } catch (IOException gone) {
      // The other side hears of it, as both are closed.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** The server answers only who asks for its own address. */
  private byte[] addressed(byte[] request, int count) {
    return new String(request, 0, count, LATIN)
        .replace("localhost:" + port(), "localhost:" + serverPort)
        .getBytes(LATIN);
  }

  @Override
  public void close() throws IOException {
    dead = false;
    end.close();
    for (Socket socket : sockets) {
      socket.close();
    }
  }
}
