//! The register of the demo house.

mod house;

use house::House;

#[test]
fn the_mill_tells_what_is_about_to_be_hidden() {
    let look = House::mill().at("2027-06-10T07:10");
    let words = look.words();
    println!("{}", words.headline(&look.register, Some(4)));
    for covering in look.register.to_come(Some(4)) {
        let (when, rest) = words.first_line(covering);
        println!("{when}: {} – {rest}", covering.key);
        for hidden in &covering.hides {
            println!(
                "     {:?} {}: {}",
                hidden.kind,
                hidden.name,
                words.seen(hidden)
            );
        }
        for sentence in words.missing(covering) {
            println!("   - {sentence}");
        }
    }
    println!("UNSEEN");
    for covering in look.register.unseen() {
        println!("{} {}", covering.key, words.let_go(covering));
        for sentence in words.missing(covering) {
            println!("   - {sentence}");
        }
    }
    for id in look.job.holds.keys() {
        println!("HOLD {id}: {}", look.hold(id.as_str()).1);
    }
}
