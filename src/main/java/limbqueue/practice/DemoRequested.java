package limbqueue.practice;

import java.nio.file.Path;

/**
 * An empty database is to be filled with the demo of this folder. Published once, within one transaction and under the
 * name of the demo's coordinator; a listener that throws undoes the whole demo.
 *
 * @param folder holds {@code practice.json} and the demo referrals
 * @param coordinator sign-in name of the demo's coordinator
 * @param physician sign-in name of the demo's physician
 */
public record DemoRequested(Path folder, String coordinator, String physician) {}
