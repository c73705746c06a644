/** Tests of what is thought about plans, and of those made out of jobs. */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;
