//! Cut lists against a published instance, bounds and hand work.

use std::num::NonZeroUsize;

use grounds_fit::cuts::{CutFault, CutList, Wanted, cut_list};
use grounds_measure::Length;
use proptest::prelude::*;

fn wanted(length: Length, count: usize) -> Wanted {
    Wanted {
        length,
        count: NonZeroUsize::MIN.saturating_add(count - 1),
    }
}

/// Every piece once, nothing longer than its stock, and what is left is right.
fn assert_cuts_all(list: &CutList, asked: &[Wanted], kerf: Length) {
    let mut cut = vec![0; asked.len()];
    for bar in &list.bars {
        let taken: Length = bar.pieces.iter().map(|piece| asked[*piece].length).sum();
        let cuts = i64::try_from(bar.pieces.len()).unwrap_or(i64::MAX);
        let exact_end = taken + kerf * (cuts - 1);
        assert!(exact_end <= bar.stock, "{bar:?}");
        assert_eq!(
            bar.left,
            (bar.stock - taken - kerf * cuts).max(Length::ZERO)
        );
        for piece in &bar.pieces {
            cut[*piece] += 1;
        }
    }
    let counts: Vec<usize> = asked.iter().map(|kind| kind.count.get()).collect();
    assert_eq!(cut, counts);
    assert_eq!(list.bought, list.bars.iter().map(|bar| bar.stock).sum());
    assert!(list.at_least <= list.bought);
}

#[test]
fn the_textbook_paper_mill_needs_seventy_three_rolls() -> Result<(), CutFault> {
    // The thirteen-width example of textbooks and encyclopedias on cutting stock, rolls of 5600 mm;
    // its best is 73 rolls [memory].
    let orders = [
        (1380, 22),
        (1520, 25),
        (1560, 12),
        (1710, 14),
        (1820, 18),
        (1880, 18),
        (1930, 20),
        (2000, 10),
        (2050, 12),
        (2100, 14),
        (2140, 16),
        (2150, 18),
        (2200, 20),
    ];
    let asked: Vec<Wanted> = orders
        .iter()
        .map(|&(mm, count)| wanted(Length::from_mm(mm), count))
        .collect();
    let list = cut_list(&[Length::from_mm(5600)], &asked, Length::ZERO)?;
    assert_cuts_all(&list, &asked, Length::ZERO);
    assert_eq!(list.bars.len(), 73);
    assert!(list.is_proven());
    Ok(())
}

#[test]
fn the_saw_takes_its_part() -> Result<(), Box<dyn std::error::Error>> {
    // Four pieces of 24 in come from 8 ft on paper, three with a saw.
    let asked = [wanted("24 in".parse()?, 4)];
    let stock = [Length::from_inches(96)];
    assert_eq!(cut_list(&stock, &asked, Length::ZERO)?.bars.len(), 1);
    let sawn = cut_list(&stock, &asked, "1/8 in".parse()?)?;
    assert_cuts_all(&sawn, &asked, "1/8 in".parse()?);
    assert_eq!(sawn.bars.len(), 2);
    assert!(sawn.is_proven());
    Ok(())
}

#[test]
fn the_cheapest_mix_of_stock_lengths_is_bought() -> Result<(), CutFault> {
    let asked = [
        wanted(Length::from_mm(2000), 3),
        wanted(Length::from_mm(900), 1),
    ];
    let stock = [2400, 3000, 4200].map(Length::from_mm);
    let list = cut_list(&stock, &asked, Length::from_mm(3))?;
    assert_cuts_all(&list, &asked, Length::from_mm(3));
    // 4200 for two of 2000, 3000 for 2000 and 900.
    assert_eq!(list.bought, Length::from_mm(7200));
    assert!(list.is_proven());
    Ok(())
}

#[test]
fn lists_that_cannot_be_cut_are_refused() {
    let stock = [Length::from_mm(3000)];
    let long = [
        wanted(Length::from_mm(10), 1),
        wanted(Length::from_mm(3001), 1),
    ];
    assert_eq!(
        cut_list(&stock, &long, Length::ZERO),
        Err(CutFault::TooLong(1))
    );
    let none = [wanted(Length::ZERO, 1)];
    assert_eq!(
        cut_list(&stock, &none, Length::ZERO),
        Err(CutFault::NotAbove)
    );
    assert_eq!(cut_list(&[], &[], Length::ZERO), Err(CutFault::NotAbove));
    let many = [
        wanted(Length::from_mm(1), usize::MAX),
        wanted(Length::from_mm(1), 2),
    ];
    assert_eq!(
        cut_list(&stock, &many, Length::ZERO),
        Err(CutFault::TooMany)
    );
    let nothing = cut_list(&stock, &[], Length::ZERO).expect("nothing to cut");
    assert!(nothing.bars.is_empty() && nothing.is_proven());
}

/// The fewest stock lengths by trying every place of every piece.
fn by_hand(room: i64, pieces: &[i64], bars: &mut Vec<i64>, best: &mut usize) {
    let Some((piece, rest)) = pieces.split_first() else {
        *best = bars.len().min(*best);
        return;
    };
    if bars.len() >= *best {
        return;
    }
    for bar in 0..bars.len() {
        if bars[bar] + piece <= room {
            bars[bar] += piece;
            by_hand(room, rest, bars, best);
            bars[bar] -= piece;
        }
    }
    bars.push(*piece);
    by_hand(room, rest, bars, best);
    bars.pop();
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn small_lists_are_as_short_as_trying_everything_finds(
        pieces in prop::collection::vec(200..3000_i64, 1..9), kerf in 0..6_i64,
    ) {
        let asked: Vec<Wanted> = pieces.iter().map(|mm| wanted(Length::from_mm(*mm), 1)).collect();
        let kerf = Length::from_mm(kerf);
        let list = cut_list(&[Length::from_mm(3000)], &asked, kerf).expect("sound");
        assert_cuts_all(&list, &asked, kerf);
        prop_assert!(list.is_proven());
        let mut best = usize::MAX;
        let lengths: Vec<i64> = asked.iter().map(|kind| (kind.length + kerf).units()).collect();
        by_hand((Length::from_mm(3000) + kerf).units(), &lengths, &mut Vec::new(), &mut best);
        prop_assert_eq!(list.bars.len(), best);
    }

    #[test]
    fn long_lists_cut_all_and_stay_above_their_bound(
        kinds in prop::collection::vec((200..2400_i64, 1..15_usize), 1..12),
        stock in prop::collection::vec(2400..6000_i64, 1..4), kerf in 0..40_i64,
    ) {
        let asked: Vec<Wanted> = kinds.iter()
            .map(|&(mm, count)| wanted(Length::from_mm(mm), count)).collect();
        let stock: Vec<Length> = stock.iter().map(|mm| Length::from_mm(*mm)).collect();
        let kerf = Length::from_tenths_mm(kerf);
        let list = cut_list(&stock, &asked, kerf).expect("sound");
        assert_cuts_all(&list, &asked, kerf);
        let all: Length = asked.iter().map(|kind| kind.length * i64::try_from(kind.count.get()).expect("few")).sum();
        prop_assert!(list.bought >= all);
        // Diving seldom leaves more than one stock length above the bound.
        let longest = stock.iter().max().copied().unwrap_or_default();
        prop_assert!(list.bought - list.at_least <= longest);
    }
}
