/** LimbQueue. Each package below is a module with one purpose; here is only what holds them together. */
@NullMarked
package limbqueue;

import org.jspecify.annotations.NullMarked;
