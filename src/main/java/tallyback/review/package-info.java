/**
 * A job looked at again: what is doubtful in it, what a reviewer can do about it, and what that
 * changes.
 *
 * <p>{@link tallyback.review.Review} is the one way in. It notes nothing and reads no clock.
 */
@org.jspecify.annotations.NullMarked
package tallyback.review;
