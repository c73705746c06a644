package tallyback.model;

/** What kind of thing an amount measures. Amounts convert only within one dimension. */
public enum Dimension {
  /** Fluids; base litre. */
  VOLUME,
  /** Tightening torque; base newton metre. */
  TORQUE,
  /** Gaps, thicknesses, head sizes, lengths; base millimetre. */
  LENGTH,
  /** Weighed fluids and parts; base kilogram. */
  MASS,
  /** Base degree Celsius (an affine scale). */
  TEMPERATURE,
  /** Over the surrounding air unless said otherwise; base kilopascal. */
  PRESSURE,
  /** Base volt. */
  VOLTAGE,
  /** Base ampere. */
  CURRENT,
  /** Base ohm. */
  RESISTANCE,
  /** Engine speed; base revolutions per minute. */
  SPEED,
  /** Base degree. */
  ANGLE,
  /** Base second. */
  TIME,
  /** Driven distance; base kilometre. */
  DISTANCE,
  /** Share, for example by volume; base percent. */
  SHARE,
  /** The speaker gave a number and no unit. */
  UNSAID
}
