package tallyback.web;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Properties;

/**
 * The editor's modules as they lie in the jar, under addresses of this server, and the map by which
 * a browser finds one from the other: they call each other by bare names. Stateless.
 */
final class EditorModules {

  static final String FOLDER = "/plans/editor/";

  /** The name a module is called by, and where in its archive it lies. */
  private static final Map<String, String[]> MODULES = new LinkedHashMap<>();

  static {
    for (String name :
        new String[] {"state", "view", "language", "commands", "lint", "autocomplete", "search"}) {
      MODULES.put("@codemirror/" + name, new String[] {"codemirror__" + name, "dist/index.js"});
    }
    MODULES.put(
        "@codemirror/legacy-modes/mode/yaml",
        new String[] {"codemirror__legacy-modes", "mode/yaml.js"});
    MODULES.put("@lezer/common", new String[] {"lezer__common", "dist/index.js"});
    MODULES.put("@lezer/highlight", new String[] {"lezer__highlight", "dist/index.js"});
    MODULES.put("style-mod", new String[] {"style-mod", "src/style-mod.js"});
    MODULES.put("w3c-keyname", new String[] {"w3c-keyname", "index.js"});
    MODULES.put("crelt", new String[] {"crelt", "index.js"});
    MODULES.put(
        "@marijn/find-cluster-break", new String[] {"marijn__find-cluster-break", "src/index.js"});
  }

  private EditorModules() {}

  /** What each is asked for by. */
  static Map<String, byte[]> byPath() {
    Map<String, byte[]> files = new LinkedHashMap<>();
    MODULES.forEach((name, where) -> files.put(path(where[0]), read(where[0], where[1])));
    return files;
  }

  private static String path(String archive) {
    return FOLDER + archive + ".js";
  }

  /** The import map, as it stands in the page. */
  static String importMap() {
    StringBuilder map = new StringBuilder("{\"imports\":{");
    MODULES.forEach(
        (name, where) ->
            map.append(map.charAt(map.length() - 1) == '{' ? "" : ",")
                .append('"')
                .append(name)
                .append("\":\"")
                .append(path(where[0]))
                .append('"'));
    return map.append("}}").toString();
  }

  /** By this a policy allows the map, which has to stand in the page itself (CSP 3, 2.3.1). */
  static String importMapHash() {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(importMap().getBytes(StandardCharsets.UTF_8));
      return "'sha256-" + Base64.getEncoder().encodeToString(hash) + "'";
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  private static byte[] read(String archive, String file) {
    Properties known = new Properties();
    String properties = "/META-INF/maven/org.webjars.npm/" + archive + "/pom.properties";
    try (InputStream in = EditorModules.class.getResourceAsStream(properties)) {
      if (in == null) {
        throw missing(properties);
      }
      known.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(properties, e);
    }
    String path =
        "/META-INF/resources/webjars/" + archive + "/" + known.getProperty("version") + "/" + file;
    try (InputStream in = EditorModules.class.getResourceAsStream(path)) {
      if (in == null) {
        throw missing(path);
      }
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(path, e);
    }
  }

  private static IllegalStateException missing(String what) {
    return new IllegalStateException(
        "the jar lacks " + what + ": build it again from a complete source tree");
  }
}
