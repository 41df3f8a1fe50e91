use super::*;

#[test]
fn a_distance_costs_more_the_farther_it_is_and_never_all() {
    let near = distance(0.0, 2.0);
    assert!(near > distance(2.0, 2.0) && distance(2.0, 2.0) > distance(8.0, 2.0));
    assert!(near > 2.0 && distance(40.0, 2.0) > -MOST_AGAINST);
}
