"""Drawings of cuts at true size; knows layout, knows no lesson."""
