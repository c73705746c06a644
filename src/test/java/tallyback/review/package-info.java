/** Tests of what a review makes of what it is asked for. */
@org.jspecify.annotations.NullMarked
package tallyback.review;
