use super::*;

#[test]
fn a_distance_costs_more_the_farther_it_is_and_never_all() {
    let at = |off| distance(off, 2.0, PEOPLE);
    assert!(at(0.0) > at(2.0) && at(2.0) > at(8.0));
    assert!(at(0.0) > 2.0 && at(40.0) > -MOST_AGAINST);
}
