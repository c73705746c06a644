package tallyback.phrase;

import java.util.List;
import java.util.random.RandomGenerator;

/**
 * Small random grammars over three words, as text. Without faults by construction; many of them
 * ambiguous.
 */
final class RandomGrammar {

  private static final List<String> WORDS = List.of("red", "green", "blue");

  private final RandomGenerator random;
  private final StringBuilder out = new StringBuilder("#JSGF V1.0;\ngrammar random;\n");

  private RandomGrammar(RandomGenerator random) {
    this.random = random;
  }

  /** A grammar whose root is {@code <r0>}; each rule refers only to later ones. */
  static String text(RandomGenerator random) {
    RandomGrammar grammar = new RandomGrammar(random);
    int rules = 2 + random.nextInt(2);
    for (int rule = 0; rule < rules; rule++) {
      // Public, so that none counts as unused.
      grammar.out.append("public <r").append(rule).append("> = ");
      grammar.choice(rule, rules, 1);
      grammar.out.append(";\n");
    }
    return grammar.out.toString();
  }

  private void choice(int rule, int rules, int depth) {
    int branches = 1 + random.nextInt(3);
    boolean weighted = branches > 1 && random.nextInt(4) == 0;
    for (int branch = 0; branch < branches; branch++) {
      out.append(branch == 0 ? "" : " | ")
          .append(weighted ? "/" + (1 + random.nextInt(9)) + ".5/ " : "");
      int parts = 1 + random.nextInt(2);
      for (int part = 0; part < parts; part++) {
        out.append(part == 0 ? "" : " ");
        item(rule, rules, depth);
      }
    }
  }

  private void item(int rule, int rules, int depth) {
    int kind = random.nextInt(10);
    if (kind == 0 && depth > 0) {
      out.append('[');
      choice(rule, rules, depth - 1);
      out.append(']');
    } else if (kind == 1 && depth > 0) {
      out.append('(');
      choice(rule, rules, depth - 1);
      out.append(')');
    } else if (kind == 2 && depth > 0) {
      // Begins with a word, so that it cannot go round without one.
      out.append('(').append(word()).append(" [");
      choice(rule, rules, depth - 1);
      out.append("])").append(random.nextBoolean() ? '*' : '+');
    } else if (kind <= 4 && rule + 1 < rules) {
      out.append("<r").append(rule + 1 + random.nextInt(rules - rule - 1)).append('>');
    } else if (kind == 5) {
      out.append("<NULL> {n<} ")
          .append(word())
          .append(random.nextBoolean() ? "+" : "")
          .append(" {>}");
      return;
    } else {
      out.append(word());
    }
    if (random.nextInt(4) == 0) {
      out.append(" {").append(random.nextBoolean() ? "x" : "y").append('}');
    }
  }

  private String word() {
    return WORDS.get(random.nextInt(WORDS.size()));
  }
}
