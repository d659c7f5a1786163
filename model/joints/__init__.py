"""Joints between placed parts: each makes its cuts in both, knows where they touch and which way they close.

Parts are placed where they will be when the joint is home, one running into the other by the depth of the joint; the
joint measures how far it runs in, so no size is said twice.
"""
