// Package drawer is the drawer under the plan: one table at a time, made when it is opened first, and which act the tables of
// the patch show. What rows and cells do beyond the table is handed to it.
package drawer
