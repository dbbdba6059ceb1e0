//! Heat and dry air before timber comes into the house.

use crate::rules::prelude::*;

pub(crate) const ON: Input<bool> = yes_no(
    "heating-on",
    "whether the heating runs as it will when the house is lived in",
    Who::Services,
);
pub(crate) const SINCE: Input<Time> = asked(
    "heating-on-for",
    "how long the heating has been on",
    Who::Services,
)
.between("0 h", "52 weeks");
pub(crate) const TEMPERATURE: Input<Temperature> =
    asked("air-temperature", "the air in the room", Who::Site).between("-20 C", "50 C");
pub(crate) const HUMIDITY: Input<Ratio> = asked(
    "air-humidity",
    "the humidity of the air in the room",
    Who::Site,
)
.between("5 %", "100 %");
const DAYS: Input<Time> = limit(
    "heating-before-timber",
    "how long the heating must run before timber comes",
)
.or("5 days", "NWFA installation guidelines", Published);
const COLD: Input<Temperature> = limit("timber-temperature-least", "the least temperature").or(
    "60 F",
    "NWFA installation guidelines",
    Published,
);
const HOT: Input<Temperature> = limit("timber-temperature-most", "the greatest temperature").or(
    "80 F",
    "NWFA installation guidelines",
    Published,
);
const DRY: Input<Ratio> = limit("timber-humidity-least", "the least humidity").or(
    "30 %",
    "NWFA installation guidelines",
    Published,
);
const DAMP: Input<Ratio> = limit("timber-humidity-most", "the greatest humidity").or(
    "55 %",
    "Makers' instructions; NWFA has 50 %",
    Published,
);

pub(crate) static RULE: Rule = Rule {
    name: "heating-before-timber",
    title: "Heating on before timber",
    family: Family::Timber,
    question: "Is the house warm and dry enough for timber to be brought in?",
    inputs: &[
        TEMPERATURE.spec,
        HUMIDITY.spec,
        COLD.spec,
        HOT.spec,
        DRY.spec,
        DAMP.spec,
        ON.spec,
        SINCE.spec,
        DAYS.spec,
    ],
    formula: &["60 to 80 °F, 30 to 55 %, for 5 days at least"],
    sources: &[published(
        "NWFA installation guidelines: closed in, heating at living conditions 5 days before, 60 to 80 °F, 30 to 50 %; makers to 55 %",
    )],
    caution: cautions::TIMBER,
    way_out: "Heating on, or dry heat lent; wet trades done; boards stay in the shop until then.",
    work,
};

fn work(w: &mut Working<'_>) -> Worked {
    let temperature = w.take(&TEMPERATURE)?;
    let (cold, hot) = (w.take(&COLD)?, w.take(&HOT)?);
    w.at_least("the air in the room", temperature, cold);
    w.at_most("the air in the room", temperature, hot);
    let humidity = w.take(&HUMIDITY)?;
    let (dry, damp) = (w.take(&DRY)?, w.take(&DAMP)?);
    w.at_least("the humidity", humidity, dry);
    w.at_most("the humidity", humidity, damp);
    let on = w.yes(&ON)?;
    w.must("the heating is on", on, "the heating is not on");
    if on {
        let (since, days) = (w.take(&SINCE)?, w.take(&DAYS)?);
        w.at_least("the time that the heating has been on", since, days);
    }
    Ok(())
}
