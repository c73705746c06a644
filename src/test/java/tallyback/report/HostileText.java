package tallyback.report;

import java.util.List;
import java.util.Random;

/** Texts that try to be more than text, made up from a seed. */
public final class HostileText {

  private static final List<String> PIECES =
      List.of(
          "<script>alert(1)</script>",
          "\"><img src=x onerror=alert(1)>",
          "' onmouseover='x",
          "</style><style>*{display:none}",
          "${7*7}",
          "@if(true)",
          "$unsafe{x}",
          "&lt;b&gt;",
          "&#60;",
          "]]>",
          "<!--",
          "-->",
          "</title>",
          "</svg>",
          "`",
          "{{x}}",
          "%s%n",
          "\\\"",
          "\\u003c",
          "\u202E",
          "\u001b[31m",
          "\u0007",
          "\r\n",
          "\t",
          "a",
          " ",
          "é",
          "漢字",
          "\uD83D\uDD27",
          "\uD800",
          "\u2028");

  private HostileText() {}

  /** One more. */
  public static String from(Random random) {
    StringBuilder text = new StringBuilder("x");
    int pieces = 1 + random.nextInt(6);
    for (int piece = 0; piece < pieces; piece++) {
      text.append(PIECES.get(random.nextInt(PIECES.size())));
    }
    return text.append("x").toString();
  }
}
