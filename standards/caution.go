package standards

// Caution stands beside every verdict and every check.
const Caution = "A calculation aid, not a calibrated instrument. The drawing, the contract, local codes and licensed practice decide; where a " +
	"part's failure can hurt someone, a qualified person decides."
