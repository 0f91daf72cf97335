/** What is bought for joints, in the order in which it is listed. */
export const itemKinds = ['plates', 'bolts', 'strip', 'punch', 'consumable', 'belt'] as const;
