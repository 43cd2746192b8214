// Package demotest makes the plans that tests and benchmarks are made with: one link of every grade and special case, large
// plans of a size from a seed, and a crowded one. Nobody and no place in them exists.
package demotest
