//! One file per rule: findings and proven fixes.
