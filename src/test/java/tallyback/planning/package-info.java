/** Tests of what is thought about a plan before the job. */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;
