//! Lengths, areas, weights, temperatures and durations as the building trade types and prints them.
