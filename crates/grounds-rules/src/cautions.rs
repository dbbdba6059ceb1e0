//! What to mind where work can hurt someone, and whose word is the last.

pub(crate) const AIR: &str = "A fan that draws more than the house lets in can pull flue gases into the room: \
have open-flued appliances tested for spillage. Check with the authority having jurisdiction; the ventilation \
engineer's design and the makers' sheets go before this.";

pub(crate) const STAIRS: &str = "People fall on stairs that miss by little. Codes differ by edition and by local \
amendment: check with the authority having jurisdiction before the stair is made.";

pub(crate) const GUARDS: &str = "A guard that gives way kills. A licensed engineer must design guards and their \
fixings; check with the authority having jurisdiction. Keep edges guarded while the work goes on.";

pub(crate) const GLASS: &str = "Glass breaks and cuts, and a falling pane cannot be caught: gloves, sleeves, eye \
protection, suction lifters that were tested, nobody under the load. Glazing in hazardous places goes by the code \
in force; structural glass is designed by a licensed engineer.";

pub(crate) const LOADS: &str = "Heavy pieces crush. This is a rough check, not a design: a licensed engineer says \
what a structure carries, and whoever lifts plans the lift first.";

pub(crate) const TIMBER: &str = "The maker's instructions go before this and decide over his guarantee. Sanding \
dust is a hazard and burns: extract it, wear a mask, keep oily rags in water.";

pub(crate) const MOISTURE: &str = "The reading releases the floor, not the calendar, and the maker of the finish \
says which reading. Test by the standard, in enough places.";

pub(crate) const TILE: &str = "The makers of tile and adhesive and the standard of the contract go before this. \
Cutting tile, stone and cement board sets silica free: cut wet or with extraction, and wear a mask.";

pub(crate) const WET: &str = "Check with the authority having jurisdiction; the maker of the membrane says how it \
is tested and when. Water is heavy: ask a licensed engineer before a large deck is flooded.";

pub(crate) const HEATING: &str = "The maker of the screed and of the heating, and the designer of the system, go \
before this. Electric heating is connected and tested by a licensed electrician.";

pub(crate) const SNOW: &str = "A rough check of a design, not a design: the engineer's load, supply and drainage \
decide. Electric cable is connected and tested by a licensed electrician, with ground-fault protection of equipment \
and its marking, and never cut, crossed or laid double.";

pub(crate) const TERRACE: &str = "A terrace is a roof and an edge at height: check with the authority having \
jurisdiction, the maker of the membrane and a licensed engineer. Guard the edge while working; wind lifts loose \
pavers.";

pub(crate) const ELECTRIC: &str = "Electricity kills and starts fires. A licensed electrician designs, connects and \
tests by the code in force; prove it dead before opening it. Check with the authority having jurisdiction.";

pub(crate) const COVER: &str = "What is covered is paid for twice if it is wrong. Check with the authority having \
jurisdiction what must be seen before it is covered, and photograph it with a tape in view.";

pub(crate) const FIRE: &str = "Fire spreads through hidden spaces. Rated construction goes by the tested assembly, \
put in by people who may; check with the authority having jurisdiction before it is covered.";

pub(crate) const COATS: &str = "The maker's data sheet goes before this; try a small area first. Solvents and \
dust in the air harm and burn: ventilate, keep flames away, wear the mask that the sheet asks for.";

pub(crate) const HEIGHTS: &str = "Falls are what most often kills on sites. Scaffolds are put up, changed and \
inspected by competent people only, and the local law on work at height goes before this.";

pub(crate) const DUST: &str = "Fine stone dust scars the lungs for good and cannot be seen. Wet cutting or \
extraction comes first, a fitted mask second; the local law on dust and the measured exposure go before this.";
