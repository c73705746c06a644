package tallyback.web.lan;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.Base64;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.app.MachineFailed;

/**
 * The folder of keys and devices. Only the owner can read it or what is in it. A file is replaced
 * as a whole, so that nobody reads half of one. Thread rule: any thread; whoever reads and then
 * writes does it in {@link #alone}, which keeps other processes out too.
 */
final class KeyFolder {

  private static final Object IN_THIS_PROCESS = new Object();
  private static final String KEY = "PRIVATE KEY";
  private static final String CERTIFICATE = "CERTIFICATE";
  private static final long MOST_BYTES = 1 << 16;

  private final Path folder;

  KeyFolder(Path folder) {
    this.folder = folder;
    try {
      Files.createDirectories(folder);
      onlyForItsOwner(folder);
    } catch (IOException e) {
      throw failed(folder, "the folder of keys can't be made", e);
    }
  }

  Path path(String name) {
    return folder.resolve(name);
  }

  /** Does something while no other thread or process does. */
  <T> T alone(Supplier<T> work) {
    Path lock = path("lock");
    synchronized (IN_THIS_PROCESS) {
      try (FileChannel channel =
              FileChannel.open(lock, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
          FileLock held = channel.lock()) {
        if (!held.isValid()) {
          throw new IOException("the lock does not hold");
        }
        return work.get();
      } catch (IOException e) {
        throw failed(lock, "can't be locked", e);
      }
    }
  }

  /** What is in a file, or null when there is none. */
  @Nullable String read(String name) {
    try {
      if (Files.size(path(name)) > MOST_BYTES) {
        throw new IOException("it is far larger than what Tallyback writes");
      }
      return Files.readString(path(name));
    } catch (NoSuchFileException e) {
      return null;
    } catch (IOException e) {
      throw failed(path(name), "can't be read", e);
    }
  }

  void write(String name, String text) {
    Path file = path(name);
    Path fresh = path(name + ".new");
    try {
      Files.deleteIfExists(fresh);
      // Nobody else can read it at any moment, not even before there is something in it.
      if (isPosix(folder)) {
        Files.createFile(
            fresh,
            PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
      } else {
        Files.createFile(fresh);
        onlyForItsOwner(fresh);
      }
      try (FileChannel channel = FileChannel.open(fresh, StandardOpenOption.WRITE)) {
        java.nio.ByteBuffer bytes = java.nio.ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
        while (bytes.hasRemaining()) {
          int unused = channel.write(bytes);
        }
        channel.force(true);
      }
      Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    } catch (IOException e) {
      throw failed(file, "can't be written", e);
    }
  }

  private static boolean isPosix(Path path) {
    return Files.getFileAttributeView(path, PosixFileAttributeView.class) != null;
  }

  private static void onlyForItsOwner(Path path) throws IOException {
    if (isPosix(path)) {
      Files.setPosixFilePermissions(
          path,
          PosixFilePermissions.fromString(Files.isDirectory(path) ? "rwx------" : "rw-------"));
      return;
    }
    // Elsewhere the user's own folder keeps others out already; this is all Java offers besides.
    boolean unused =
        path.toFile().setReadable(false, false) && path.toFile().setReadable(true, true);
  }

  /**
   * A private key, or null when there is none.
   *
   * @throws MachineFailed if the file holds something else
   */
  @Nullable PrivateKey key(String name) {
    String text = read(name);
    if (text == null) {
      return null;
    }
    try {
      onlyForItsOwner(path(name));
      return KeyFactory.getInstance("EC")
          .generatePrivate(new PKCS8EncodedKeySpec(bytes(text, KEY)));
    } catch (GeneralSecurityException | IllegalArgumentException | IOException e) {
      throw damaged(name, e);
    }
  }

  /**
   * A certificate, or null when there is none.
   *
   * @throws MachineFailed if the file holds something else
   */
  @Nullable X509Certificate certificate(String name) {
    String text = read(name);
    if (text == null) {
      return null;
    }
    try {
      return (X509Certificate)
          CertificateFactory.getInstance("X.509")
              .generateCertificate(new ByteArrayInputStream(bytes(text, CERTIFICATE)));
    } catch (CertificateException | IllegalArgumentException e) {
      throw damaged(name, e);
    }
  }

  void write(String name, PrivateKey key) {
    write(name, pem(KEY, key.getEncoded()));
  }

  void write(String name, X509Certificate certificate) {
    try {
      write(name, pem(CERTIFICATE, certificate.getEncoded()));
    } catch (CertificateException e) {
      throw new IllegalStateException(e);
    }
  }

  /** RFC 7468. */
  private static String pem(String label, byte[] bytes) {
    return "-----BEGIN "
        + label
        + "-----\n"
        + Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(bytes)
        + "\n-----END "
        + label
        + "-----\n";
  }

  private static byte[] bytes(String text, String label) {
    String begin = "-----BEGIN " + label + "-----";
    String end = "-----END " + label + "-----";
    int from = text.indexOf(begin);
    int to = text.indexOf(end);
    if (from < 0 || to < from) {
      throw new IllegalArgumentException("expected " + begin);
    }
    return Base64.getMimeDecoder().decode(text.substring(from + begin.length(), to));
  }

  /** What to do about a file that is not as it was written. */
  MachineFailed damaged(String name, Exception cause) {
    return new MachineFailed(LanTexts.damaged(path(name), folder), cause);
  }

  private static MachineFailed failed(Path file, String what, IOException cause) {
    return new MachineFailed(LanTexts.fileFailed(file, what, cause), cause);
  }
}
