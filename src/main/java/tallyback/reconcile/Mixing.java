package tallyback.reconcile;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import tallyback.model.Account;
import tallyback.model.Rational;
import tallyback.model.Statement.FluidMove;
import tallyback.reconcile.FluidSums.Read;
import tallyback.trade.Uncertainty;

/**
 * How strong a fluid is in the end: what came out was as strong as what was inside, what went in
 * mixed perfectly. The uncertainty is propagated along with it, to first order (JCGM 100:2008,
 * 5.1.2 and 5.2.2): errors of one source, such as a jug's scale, keep their sign through the whole
 * job; each reading adds its own. Time is linear in the number of moves. Used by one thread.
 *
 * <p>Floating point: the result is known to a percent at best.
 */
final class Mixing {

  /**
   * A share and its uncertainty.
   *
   * @param litres what is inside
   * @param share of it that is asked for, from 0 to 1
   * @param expanded expanded uncertainty (k = 2) of the share
   */
  record Result(double litres, double share, double expanded) {}

  /**
   * Strength of what goes in or was inside.
   *
   * @param share from 0 to 1
   * @param halfWidth how far it may be off
   * @param source what it stems from
   */
  record Strength(double share, double halfWidth, String source) {}

  /** Deviations that one source would cause in content and in what is dissolved in it. */
  private static final class Deviation {
    private double content;
    private double dissolved;
  }

  private final Map<String, Deviation> bySource = new LinkedHashMap<>();
  private double content;
  private double dissolved;
  private double lastOut;
  private double variance;
  private double varianceOfContent;
  private double covariance;

  private Mixing() {}

  /**
   * Follows a fluid through the job.
   *
   * @param contentBefore litres inside before
   * @param halfWidthOfContent how far that may be off
   * @param before strength of what was inside
   * @param sums the moves
   * @param poured strength of a move into the system; a move of unknown strength ends it
   */
  static Optional<Result> follow(
      Rational contentBefore,
      double halfWidthOfContent,
      Strength before,
      FluidSums sums,
      Function<Read, Optional<Strength>> poured) {
    Mixing mixing = new Mixing();
    mixing.content = contentBefore.toDouble();
    mixing.dissolved = mixing.content * before.share();
    mixing.lastOut = before.share();
    mixing.deviate("content before", halfWidthOfContent, halfWidthOfContent * before.share());
    mixing.deviate(before.source(), 0, before.halfWidth() * mixing.content);
    for (Read read : sums.reads()) {
      if (read.posting().from() == Account.SYSTEM) {
        mixing.out(read);
      } else if (read.posting().to() == Account.SYSTEM) {
        Optional<Strength> strength =
            FluidSums.moved(read.posting()).move() == FluidMove.PUT_BACK
                ? Optional.of(new Strength(mixing.lastOut, 0, ""))
                : poured.apply(read);
        if (strength.isEmpty()) {
          return Optional.empty();
        }
        mixing.in(read, strength.get());
      }
    }
    return mixing.result();
  }

  private void deviate(String source, double ofContent, double ofDissolved) {
    Deviation deviation = bySource.computeIfAbsent(source, key -> new Deviation());
    deviation.content += ofContent;
    deviation.dissolved += ofDissolved;
  }

  private void out(Read read) {
    double litres = read.litres().toDouble();
    if (content <= litres) {
      empty();
      return;
    }
    double stays = 1 - litres / content;
    double perContent = dissolved * litres / (content * content);
    for (Deviation each : bySource.values()) {
      each.dissolved = each.dissolved * stays + each.content * perContent;
    }
    variance =
        variance * stays * stays
            + 2 * covariance * stays * perContent
            + varianceOfContent * perContent * perContent;
    covariance = covariance * stays + varianceOfContent * perContent;
    lastOut = dissolved / content;
    add(read, lastOut);
    content -= litres;
    dissolved *= stays;
  }

  /** More came out than was inside: nothing of what was dissolved is left. */
  private void empty() {
    lastOut = content > 0 ? dissolved / content : lastOut;
    content = 0;
    dissolved = 0;
    bySource.clear();
    variance = 0;
    varianceOfContent = 0;
    covariance = 0;
  }

  private void in(Read read, Strength strength) {
    double litres = read.litres().toDouble();
    add(read, strength.share());
    if (strength.halfWidth() > 0) {
      deviate(strength.source(), 0, strength.halfWidth() * litres);
    }
    content += litres;
    dissolved += litres * strength.share();
  }

  /**
   * The errors of one volume: those of its vessel with their sign, its own reading by itself. What
   * is counted as too much out is missing inside, with what was dissolved in it.
   */
  private void add(Read read, double share) {
    String own = " of " + read.posting().said().entry().id();
    for (Uncertainty.Component each : read.halfWidths()) {
      double ofContent = -each.signedHalfWidth();
      if (each.source().endsWith(own)) {
        double standard = Uncertainty.ofRectangular(ofContent);
        double square = standard * standard;
        varianceOfContent += square;
        variance += square * share * share;
        covariance += square * share;
      } else {
        deviate(each.source(), ofContent, ofContent * share);
      }
    }
  }

  private Optional<Result> result() {
    if (content <= 0) {
      return Optional.empty();
    }
    double share = dissolved / content;
    double sum =
        (variance - 2 * share * covariance + share * share * varianceOfContent)
            / (content * content);
    for (Deviation each : bySource.values()) {
      double ofShare = (each.dissolved - share * each.content) / content;
      sum += Math.pow(Uncertainty.ofRectangular(ofShare), 2);
    }
    return Optional.of(
        new Result(content, share, Uncertainty.COVERAGE_FACTOR * Math.sqrt(Math.max(0, sum))));
  }
}
